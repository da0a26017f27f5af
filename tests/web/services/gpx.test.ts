import { describe, expect, it } from "vitest";
import { readGpx } from "@/services/gpx";
import { legsOf } from "@/services/track";
import { gpxOf } from "@/services/waypoints";

const DEGREE_KM = (6378.137 * Math.PI) / 180; // of the equator of WGS 84

const FILE = `\uFEFF<?xml version="1.0" encoding="UTF-8"?>
<!-- a comment with <tags> -->
<gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1" xmlns:x="urn:x">
  <metadata><name>Not a track</name></metadata>
  <wpt lat="0.01" lon='10.5'><ele>300</ele><name>Well &amp; tank &#x2014; &lt;dry&gt;</name></wpt>
  <wpt lon="11" lat="3"/>
  <x:trk><x:name><![CDATA[East & on]]></x:name>
    <x:trkseg><x:trkpt lat="0" lon="10"/><x:trkpt lat="0" lon="10.5"><ele>1</ele></x:trkpt></x:trkseg>
    <x:trkseg><x:trkpt lat="0" lon="11"/></x:trkseg></x:trk>
  <rte><name>Back</name><rtept lat="0" lon="11"><name>a point</name></rtept><rtept lat="0" lon="10"/></rte>
  <trk><name>One point</name><trkseg><trkpt lat="1" lon="1"/></trkseg></trk>
</gpx>`;

describe("a GPX file", () => {
  it("gives its tracks, routes and waypoints", () => {
    const found = readGpx(FILE)!;
    expect(found.tracks.map(({ name, spots }) => [name, spots.length])).toEqual([
      ["East & on", 3],
      ["Back", 2],
    ]);
    expect(found.places).toEqual([
      { name: "Well & tank \u2014 <dry>", latitude_deg: 0.01, longitude_deg: 10.5 },
      { name: "", latitude_deg: 3, longitude_deg: 11 },
    ]);
  });

  it.each([
    ["nothing", ""],
    ["words", "no track at all"],
    ["another format", "<kml><trk></trk></kml>"],
    ["a page", "<!DOCTYPE html><html><body>x</body></html>"],
    ["a tag that is not closed", "<gpx><trk></gpx>"],
    ["a file cut off", FILE.slice(0, 700)],
    ["a sign that opens nothing", "<gpx>3 < 4<wpt lat='1' lon='1'/></gpx>"],
    ["an empty file of its kind", "<gpx></gpx>"],
  ])("is none: %s", (_, text) => {
    expect(readGpx(text)).toBeNull();
  });

  it("leaves out points that are nowhere", () => {
    const text = `<gpx><rte><rtept lat="91" lon="0"/><rtept lat="x" lon="0"/><rtept lon="0"/></rte>
      <wpt lat="0" lon="181"/><wpt lat="-1.5" lon="+2"/></gpx>`;
    expect(readGpx(text)).toEqual({
      tracks: [],
      places: [{ name: "", latitude_deg: -1.5, longitude_deg: 2 }],
    });
  });

  it("becomes legs with the places beside them", () => {
    const { tracks, places } = readGpx(FILE)!;
    const { legs, places: near } = legsOf(tracks, places);
    expect(legs.map((leg) => leg.name)).toEqual(["East & on", "Back"]);
    for (const leg of legs) expect(leg.km).toBeCloseTo(DEGREE_KM, 6);
    expect(near).toHaveLength(1);
    expect(near[0]!.at_km).toBeCloseTo(DEGREE_KM / 2, 6);
    expect(near[0]!.off_km).toBeCloseTo(DEGREE_KM / 100, 6);
    expect(legsOf([], places)).toEqual({ legs: [], places: [] });
  });
});

describe("supplies as waypoints", () => {
  it("are read again as they were", () => {
    const supplies = [
      { name: `Bore "nine" <& co>`, latitude_deg: -20.25, longitude_deg: 131.5 },
      { name: "Nowhere", latitude_deg: null },
    ];
    const text = gpxOf(supplies, () => "certain & 'open'");
    expect(readGpx(text)!.places).toEqual([supplies[0]]);
    expect(text).toContain("<desc>certain &#38; &#39;open&#39;</desc>");
  });
});
