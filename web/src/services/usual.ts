/** Figures of the domain that the words for what is taken for granted name, so that they name those that are used. */
import { GREATEST_SHARE, LEAST_SHARE } from "@/domain/forgotten";
import { FUEL_KAPPAS, RESERVE_L, RESERVE_SHARE, SURFACES } from "@/domain/fuel";
import { WATER_KAPPAS } from "@/domain/water";

export const usual = {
  gravel: SURFACES.gravel!,
  sand: SURFACES.sand!,
  reserve_l: RESERVE_L,
  reserve_share: RESERVE_SHARE,
  drivers: FUEL_KAPPAS.length,
  campers: WATER_KAPPAS.length,
  least_forgotten: LEAST_SHARE,
  most_forgotten: GREATEST_SHARE,
};
