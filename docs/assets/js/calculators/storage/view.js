// The answer on the page: sentences, numbers, picture, tables.

import { element, list, numbers, parts, pictureSlot, table } from "../element.js";
import { aboutTimes, expectedText, moistureText, oriented, timesText, untilText, yearsText } from "./words.js";
import { curves, publishedYears, thumbPicture } from "./picture.js";
import { workings } from "./method.js";
import { cautions, lotName, published, restsOn, storeTexts, thumbTexts } from "./sentences.js";

const LIFE = "A lot at 90 % comes down to 50 % in";

function headline(answer) {
  const { values, ratio, better, thumb, tests, lives, apart } = answer;
  const [first, second] = values.stores;
  const [good, poor] = better === 0 ? [first, second] : [second, first];
  const seed = lotName(values);
  if (ratio === null) {
    const why = values.crop === null ? "no crop is chosen, so the viability equation can’t be used"
      : `no ${values.crop.doubtful.length > 0 ? "sound " : ""}constants of the viability equation are published for ${values.crop.name}`;
    if (thumb === null) return `Nothing to compare with: ${why}, and no rule of thumb is recorded.`;
    if (apart) return `Which store keeps ${seed} longer can’t be told: one is no warmer, but the other is drier; ${why}.`;
    const times = thumb.both ?? thumb.temperature;
    const alone = thumb.both === null ? ", counting the temperature alone" : "";
    const compare = better === null ? `the two stores are about alike${alone}` : `${good.name} keeps ${seed} ${aboutTimes(oriented([times, times], better))} as long as ${poor.name}${alone}`;
    return `By rules of thumb ${compare}; ${why}.`;
  }
  const test = `from ${values.k} of ${values.n}, after ${yearsText(values.years)}`;
  const [one, two] = better === 0 ? [0, 1] : [1, 0];
  const found = tests[values.set];
  const percents = `${expectedText(found[one].after)} against ${expectedText(found[two].after)}`;
  const compare = better === null ? `The two stores keep ${seed} about alike (${timesText(ratio)} as long in the second)` : `${good.name} keeps ${seed} ${aboutTimes(oriented(ratio, better))} as long as ${poor.name}`;
  const doubt = lives[values.set].set.doubt ? ", by a set of constants that is doubtful" : "";
  return `${compare}; ${test} expect ${percents}${doubt}.`;
}

function trust({ values, ratio, thumb, better, lives }) {
  if (ratio === null) {
    const years = values.crop === null ? "" : values.crop.life === null ? ` No seed life is published for ${values.crop.name} either.` : ` Published years for ${values.crop.name}, kept cool and dry: about ${yearsText(values.crop.life[0])}.`;
    return `A rule of thumb gives the order of two stores and a rough ratio, without a range and for no crop in particular.${years}`;
  }
  const sound = lives.filter((life) => !life.set.doubt);
  const sets = sound.length > 1 ? `the span of ${sound.length} published sets of constants` : "one published set of constants, so no span can be given";
  const both = thumb?.both ?? null;
  const rule = both === null ? "" : ` Harrington’s rules of thumb make it ${aboutTimes(oriented([both, both], better))}.`;
  const open = values.stores.some((store) => store.kind === "open") ? " The equation was found in sealed seed: in an open store moisture goes up and down, and life is likely to be shorter than it says (from memory)." : "";
  const doubt = lives[values.set].set.doubt ? " The percentages are by a doubtful set: choose another." : "";
  return `Trust the order and the ratio (${sets}) more than percentages and years: their ranges hold only what a test of ${values.n} leaves open, not lots and stores that differ.${rule}${open}${doubt}`;
}

function storesTable({ values, main, tests }) {
  const { stores, years, line, set } = values;
  const sure = `${Math.round(values.confidence * 100)} %`;
  const each = (make) => stores.map((_, i) => make(i));
  return table(`By ${main.set.name}; ranges: ${sure}, of the test alone`, ["What", ...stores.map((store) => store.name)], [
    ["Moisture of the seed", ...each((i) => moistureText(stores[i].moisture))],
    [`After ${yearsText(years)}`, ...each((i) => expectedText(tests[set][i].after))],
    [`Until ${Math.round(line * 100)} % is left`, ...each((i) => untilText(tests[set][i].until))],
    [LIFE, ...each((i) => yearsText(main.yardstick[i]))],
  ]);
}

// Where sets differ the reader sees every answer.
function setsTable({ values, lives, tests, better }) {
  if (lives.length < 2) return null;
  const { stores, years } = values;
  const marks = ({ doubt, single }) => (doubt ? ", doubtful" : single ? ", one temperature" : "");
  return table(`Each published set of constants, after ${yearsText(years)}`, ["Set", "Times as long", ...stores.map((store) => store.name)],
    lives.map(({ set, ratio }, i) => [`${i + 1}: ${set.name}${marks(set)}`, timesText(oriented([ratio, ratio], better)), ...tests[i].map((found) => expectedText(found.after))]));
}

function pairs({ values, ratio, thumb, better }) {
  const [good, poor] = better === 0 ? values.stores : [...values.stores].reverse();
  const turned = (times) => (times === null ? null : timesText(oriented([times, times], better)));
  return [
    ratio === null ? null : [`${good.name} against ${poor.name}, viability equation`, timesText(oriented(ratio, better))],
    thumb && [`By Harrington’s rules: temperature`, turned(thumb.temperature)],
    thumb && thumb.moisture !== null ? ["By Harrington’s rules: moisture", turned(thumb.moisture)] : null,
    thumb && thumb.both !== null ? ["By Harrington’s rules: both", turned(thumb.both)] : null,
    values.crop !== null && values.crop.life !== null ? ["Published seed life, cool and dry", `about ${yearsText(values.crop.life[0])}`] : null,
  ].filter(Boolean);
}

function picture(answer, data) {
  const { values, curves: drawn, thumb } = answer;
  if (drawn !== null) return pictureSlot((width) => curves(answer, width));
  if (values.crop !== null && values.crop.years.length > 0) return pictureSlot((width) => publishedYears(answer, data, width));
  return thumb === null ? null : pictureSlot((width) => thumbPicture(answer, width));
}

// The page that joins age and test, with the same crop and test.
function onward({ values }) {
  const link = element("a", "", "Age and test together");
  const test = values.n === undefined ? "" : `&seeds=${values.n}&normal=${values.k}`;
  link.href = `../old-seed/#old-seed=1${values.crop === null ? "" : `&crop=${values.cropId}`}${test}`;
  return element("p", "storage-onward", "When to test it again, and what its age adds: ", link, ".");
}

/** What mountCalculator shows of an answer. */
export function show(answer, data, level) {
  const { values } = answer;
  const told = { headline: headline(answer), trust: trust(answer) };
  return {
    title: `Old seed and storage${values.crop === null ? "" : `, ${values.crop.name}`}`,
    ...told,
    line: `${told.headline} Ratio of two stores by published rules; single lots differ.`,
    rest: [
      numbers(pairs(answer)),
      picture(answer, data),
      answer.main === null ? null : storesTable(answer),
      setsTable(answer),
      parts(level, [
        ["The two stores", list(storeTexts(answer, data))],
        ["Rules of thumb", list(thumbTexts(answer, data))],
        ["Published seed life", list(published(answer, data))],
        ["What it rests on", list(restsOn(answer, data))],
        ["Cautions", list(cautions(answer, data))],
      ]),
      onward(answer),
    ],
    workings: workings(answer, data),
  };
}
