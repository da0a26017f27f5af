/** Words of left and right. */
export const words = {
  title: "Left and right",
  hint: "Each wheel by itself, kg, ± 95 %.",
  side: { left: "Left side", right: "Right side" } as Readonly<Record<string, string>>,
  noPlan: "The plan gives no load of single wheels: enter both tracks of the vehicle for that.",
  frame: {
    flexible:
      "Planned with a flexible frame: each axle carries on its own two wheels what stands over it. A stiffer frame shares a lean between the axles.",
    rigid:
      "Planned with a rigid frame: a lean is shared between the axles by their stiffness, wherever the mass stands.",
  } as Readonly<Record<string, string>>,
};
