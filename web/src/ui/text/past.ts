/** Words of consumption as it was. */
export const words = {
  title: "Consumption over time",
  nothing: "No way has been driven in this log yet.",
  explained:
    "Each line is the rate as it looks with all that is known now, with its ± of 95 %. It answers nothing ahead.",
  perHundred: "L/100 km",
  from: (km: string) => `from ${km}`,
  ranges: (low: string, high: string, now: string, reach: string) =>
    `between ${low} and ${high}, at last ${now} ± ${reach} L/100 km`,
  fulls: "From full tank to full tank",
  noFulls: "Two full tanks give the first figure.",
  pooled: "All of them together",
  segment: (from: string, to: string) => `${from} to ${to} km`,
  cost: "What a distance cost",
  per: (currency: string) => `${currency} per 100 km`,
  over: (distance: string) => `over ${distance}, every fill of it paid`,
};
