// Setting type: how wide a text is, where it breaks, how large it may be. Twin of build_tools/render/sheets/type.py.

const LEAST_ON_ONE_LINE = 0.7;
const TWO_LINES = 0.52;

/** `widths` in thousandths of the type size, by weight and character; "" is the width of any other. */
export class Type {
  constructor(widths) {
    this.widths = widths;
  }

  width(text, size, weight = 400) {
    const table = this.widths[weight];
    let sum = 0;
    for (const c of text) sum += table[c] ?? table[""];
    return (sum * size) / 1000;
  }

  wrap(text, size, weight, most) {
    const lines = [];
    for (const word of text.split(" ")) {
      const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
      if (lines.length > 0 && this.width(longer, size, weight) <= most) lines[lines.length - 1] = longer;
      else lines.push(word);
    }
    return lines;
  }

  /** The largest type size, `size` at most, at which `text` fits `most` mm. */
  oneLine(text, size, weight, most) {
    const width = this.width(text, size, weight);
    return width <= most ? size : (size * most) / width;
  }

  /** A name in one line, or where that gets too small in two: [lines, size]. */
  name(text, size, weight, most) {
    const alone = this.oneLine(text, size, weight, most);
    if (alone >= size * LEAST_ON_ONE_LINE || !text.includes(" ")) return [[text], alone];
    const lines = this.halves(text, weight);
    const two = Math.min(size * TWO_LINES, ...lines.map((line) => this.oneLine(line, size, weight, most)));
    return alone >= two ? [[text], alone] : [lines, two];
  }

  halves(text, weight) {
    const words = text.split(" ");
    const cuts = words.slice(1).map((_, i) => [words.slice(0, i + 1).join(" "), words.slice(i + 1).join(" ")]);
    const widest = (lines) => Math.max(...lines.map((line) => this.width(line, 1, weight)));
    return cuts.reduce((best, cut) => (widest(cut) < widest(best) ? cut : best));
  }
}
