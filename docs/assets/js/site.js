/* What every page gains with scripts: the unit switch, the filters, the reader's own temperature. Without scripts nothing is lost. */
import { mountFromFolder } from "./from_folder.js";
import { mountKeeping } from "./offline/keep.js";
import { mountUnitSwitch } from "./units.js";
import { mountFind, mountIndexFilter } from "./filters.js";
import { mountReader } from "./reader.js";
import { mountMenu } from "./menu.js";
import { mountReached, mountStay, mountTargets } from "./targets.js";
import { mountCorrectLinks } from "./correct/complete.js";

mountFromFolder(window); // before the theme starts its worker
document.querySelector(".md-search")?.setAttribute("aria-label", "Search"); // the theme leaves its dialog without a name
mountMenu(document);
mountUnitSwitch(document);
mountFind(document);
mountIndexFilter(document);
mountReader(document);
mountTargets(document);
mountStay(document);
mountReached(document);
mountCorrectLinks(document);
mountKeeping(window);
