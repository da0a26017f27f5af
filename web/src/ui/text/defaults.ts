/** Words for what the reading of a log takes for granted. */
import { usual } from "@/services/usual";
import { figure, litres, perHundred } from "./figures";

interface Said {
  readonly label: string;
  readonly figure: string;
  readonly note?: string;
}

const share = (value: number): string => `${figure(value * 100, value < 0.01 ? 2 : value < 0.1 ? 1 : 0)} %`;
const sd = (value: number): string => `${figure(value, 1)} u`;
const plain = (value: number): string => String(Number(value.toPrecision(6)));

type Say = (value: number) => Said;
const as =
  (label: string, show: (value: number) => string, note?: string): Say =>
  (value) => ({ label, figure: show(value), ...(note ? { note } : {}) });

const perDay = (value: number) => litres(value, 1);
const kms = (value: number) => `${plain(value)}\u202fkm`;

const SAY: Readonly<Record<string, Say>> = {
  sealed_rate: as("On sealed roads", perHundred, "a loaded mid-size diesel, from memory"),
  gravel_rate: as("On gravel", perHundred, `usually ${plain(usual.gravel)} times sealed`),
  sand_rate: as("On sand", perHundred, `usually ${plain(usual.sand)} times sealed`),
  towing_ratio: as("Towing: times as much", plain),
  fuel_guess_u: as("u of these guesses, common to all surfaces", share),
  fuel_surface_u: as("u of each surface beside that", share),
  fuel_drift: as("Drift of all rates in 1000 km", share),
  fuel_surface_drift: as("Drift of one surface alone in 1000 km", share),
  fuel_unsteady_km: as("Length of a leg that is as steady as said next", kms),
  fuel_steadiest: as(
    "Steadiest driver thought of, leg to leg",
    share,
    `the log weighs ${usual.drivers} against each other`,
  ),
  fuel_unsteadiest: as("Most unsteady driver thought of", share),
  fuel_reserve_l: as(
    "Fuel never counted on",
    (value) => litres(value),
    `usually ${litres(usual.reserve_l)} or ${share(usual.reserve_share)}, the greater`,
  ),
  confidence: as("Count on, one-sided", share),
  pump_u: as("u of a pump", share, "class 0.5, Directive 2014/32/EU"),
  full_u_l: as("u of a full tank, by the shut-off", (value) => litres(value, 1)),
  gauge_u: as("u of its gauge, of the tank", share),
  dip_stick: as("u of a stick, of the tank", share, "each level may state its own"),
  dip_tube: as("u of a tube, of the tank", share, "each level may state its own"),
  dip_lamps: as("u of lamps, of the tank", share, "each level may state its own"),
  about_u: as("u of litres told about", share, "each entry may state its own"),
  odometer_factor: as("True km per km on the odometer", plain),
  odometer_factor_u: as("u of true km per km", plain),
  odometer_step_km: as("What the odometer counts in", kms),
  water_rate: as("A person and day", perDay, "remote-travel advice, second-hand"),
  drinking_floor: as("Drink and food alone, a person and day", perDay, "Sphere Handbook 2011, second-hand"),
  water_guess_u: as("u of the first guess of a day", share),
  water_drift: as("Drift of the rate in 20 person-days", share),
  water_steadiest: as(
    "Steadiest use thought of, day to day",
    share,
    `the log weighs ${usual.campers} against each other`,
  ),
  water_unsteadiest: as("Most unsteady use thought of", share),
  early: as("Readings before the log counts more than the guess", plain),
  water_fill_u: as("u of litres put in", share),
  grey_fraction: as("Share of the water that runs into the grey tank", share),
  water_reserve_l: as(
    "Water never counted on",
    (value) => litres(value),
    `usually ${share(usual.reserve_share)} of the tanks`,
  ),
  hold: as("Asked about: further off than", sd, "“It is right” lets it count"),
  overfull: as("Asked about: above a full tank by", sd),
  overfill: as("Refused: one fill of more tanks than", plain),
  beyond: as("Asked about: driven beyond the tanks by", share),
  change_u: as("What a change may do to the rate", share, "each change may state its own"),
  skip: as("A change is looked for after full tanks", plain),
  slack: as("Left out of the sum that tells a change", sd),
  alarm: as("Told: the sum is over", sd),
  single: as("Told: one reading alone is off by", sd),
};

export const words = {
  title: "What is taken for granted",
  hint: "Where the log says nothing, these figures do. Touch one to say your own; u is one standard uncertainty.",
  ownersChange:
    "Where the log says nothing, these figures do. Owner and fitter can change them; u is one standard uncertainty.",
  assumed: "assumed",
  own: "your own",
  groups: {
    guess: "To begin with",
    reading: "How exact what is read is",
    asked: "When you are asked",
  },
  say: (code: string, value: number): Said => SAY[code]?.(value) ?? { label: code, figure: plain(value) },
};
