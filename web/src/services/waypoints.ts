/** Supplies written as waypoints of GPX 1.1 (topografix.com/GPX/1/1). */
import type { Body } from "../domain/book";

/** Supplies with their coordinates as waypoints, each with some words. */
export function gpxOf(supplies: readonly Body[], told: (supply: Body) => string): string {
  const points = located(supplies).map(
    (one) =>
      `<wpt lat="${one.latitude_deg}" lon="${one.longitude_deg}"><name>${encoded(one.name)}</name><desc>${encoded(told(one))}</desc></wpt>\n`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="Tareway" xmlns="http://www.topografix.com/GPX/1/1">\n${points.join("")}</gpx>\n`;
}

/** The supplies whose coordinates are known. */
export function located(supplies: readonly Body[]): readonly Body[] {
  return supplies.filter((one) => one.latitude_deg != null && one.longitude_deg != null);
}

function encoded(text: string): string {
  return text.replace(/[<>&"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
