// The pages "Compare": whichever of them this is.

import { mountDays } from "./days.js";
import { mountExplore } from "./explore.js";
import { mountSeedLife } from "./seed_life.js";
import { mountWarmth } from "./warmth.js";

const article = document.querySelector("article.compare");
const shown = { warmth: mountWarmth, days: mountDays, "seed-life": mountSeedLife }[article?.dataset.compare]?.(article);
if (shown) mountExplore(article, shown);
