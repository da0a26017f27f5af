import { useLastVehicle } from "./last";

export default function WeighShortcut(): null {
  useLastVehicle("weigh");
  return null;
}
