/** What the line rests on, what it leaves out, and what to take care of. */

export const method = (laminarUpTo: number, turbulentFrom: number): string[] => [
  "The line is a tree of pipes: main, riser, cross pipe, a pipe along each row, a small tube to each pot. At every moment the flows are sought for which, along the way to each pot, the head lost equals the height from the tank’s water down to the end of the tube; no water is lost at a branch. The tank’s level then falls, pots fill, and the flows are sought again.",
  `Friction is by Darcy and Weisbach, h = f (L/D) v²/2g. In slow flow f = 64/Re (Hagen and Poiseuille), up to a Reynolds number Re of ${laminarUpTo}; from ${turbulentFrom} on it is that of Colebrook and White (1939, from memory). Between the two nobody can say for sure; a straight line joins them, and flows there may be off by a fifth. Small tubes often run in that zone.`,
  "Handbook formulas for the pipes of houses, such as that of Hazen and Williams, hold for fast flow. In the slow flow of a 4 mm tube they tell losses up to eight times too low, so they are not used.",
  "Cold water is thicker: at 5 °C it flows in a fine tube about two thirds as fast as at 20 °C (Kestin et al. 1978, from memory).",
  "Entrance, valve, bends and branches each lose a number of velocity heads v²/2g: textbook values, from memory. An open end loses one. An emitter lets through q = k hˣ, with h the head before it; k and x are the maker’s.",
];

export const lineLimits = [
  "New, clean, round tubes, with no air in them. Slime, roots, grit and kinks make real ones slower: time your own line once, and keep the strainer clean.",
  "Pots, tubes’ ends and rows are taken to stand level with each other. On a slope the lower pots get more: measure, and set the heights of the tubes’ ends.",
  "In the zone between slow and fast flow, numbers may be off by a fifth; coefficients of fittings come from textbooks and differ by make.",
  "What seeps out through the pots’ walls while they fill is left out: it is little in so short a time.",
  "The tank stands alone here: what rain brings and other taps take meanwhile is left out, and so are spare tanks.",
  "A line that has run dry holds air: let it run until all tubes give water before you time it.",
  "Emitters that keep their flow whatever the pressure need far more head than a tank in a garden has (common practice, no source).",
  "The bed, tank and line that a page first shows are invented.",
];

/** Goes with the parts, to where they are put together. */
export const paperCaution =
  "Call before you dig (in the United States 811). No joint with drinking water without the backflow protection that your code asks for. A litre weighs a kilogram, a US gallon 8.3 pounds: a firm stand under the tank. Lids on tank and pots, against children and mosquitoes. Drain all of it before frost. Local codes come first.";
