import type { Notebook } from "../notebook/notebook.ts";
import { notebook as doesTheLineFillEveryPot } from "./does-the-line-fill-every-pot/notebook.ts";
import { notebook as doesThePotGiveWhatPlantsTake } from "./does-the-pot-give-what-plants-take/notebook.ts";
import { notebook as howFarApartDoThePotsGo } from "./how-far-apart-do-the-pots-go/notebook.ts";
import { notebook as howFarDoesWaterSpread } from "./how-far-does-water-spread/notebook.ts";
import { notebook as howSureIsIt } from "./how-sure-is-it/notebook.ts";
import { notebook as myBed } from "./my-bed/notebook.ts";
import { notebook as whatMattersMost } from "./what-matters-most/notebook.ts";
import { notebook as whenDoIRefill } from "./when-do-i-refill/notebook.ts";
import { notebook as whereDoISow } from "./where-do-i-sow/notebook.ts";
import { notebook as whereDoesEachPotGo } from "./where-does-each-pot-go/notebook.ts";
import { notebook as whyDoesSoilMatter } from "./why-does-soil-matter/notebook.ts";
import { notebook as willTheTankLast } from "./will-the-tank-last/notebook.ts";

/** Every notebook, in the order in which the questions come up. Building, printing and the browser tests go by it. */
export const notebooks: readonly Notebook[] = [
  howFarDoesWaterSpread,
  whereDoISow,
  howFarApartDoThePotsGo,
  whereDoesEachPotGo,
  doesTheLineFillEveryPot,
  whyDoesSoilMatter,
  doesThePotGiveWhatPlantsTake,
  whenDoIRefill,
  willTheTankLast,
  myBed,
  howSureIsIt,
  whatMattersMost,
];
