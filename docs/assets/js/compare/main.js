// The pages "Compare": whichever of them this is.

import { mountDays } from "./days.js";
import { mountExplore } from "./explore.js";
import { mountSeedLife } from "./seed_life.js";
import { mountWarmth } from "./warmth.js";
import { inTasks } from "../steps.js";

const article = document.querySelector("article.compare");
const mount = { warmth: mountWarmth, days: mountDays, "seed-life": mountSeedLife }[article?.dataset.compare];

function* mounted() {
  const shown = yield* mount(article);
  yield;
  mountExplore(article, shown);
}

if (mount) inTasks(mounted());
