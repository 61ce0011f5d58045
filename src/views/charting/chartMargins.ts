/** What stands beside the plot, in pixels, alike for everything on one time axis: the value axis, and the lines' names. */
export const plotSides = { left: 52, right: 76 };
