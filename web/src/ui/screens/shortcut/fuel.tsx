import { useLastVehicle } from "./last";

export default function FuelShortcut(): null {
  useLastVehicle("fuel");
  return null;
}
