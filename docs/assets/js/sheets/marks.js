// Marks: what a layout puts on a page, in mm. Twin of build_tools/render/sheets/marks.py.

export const text = (x, y, size, words, { weight = 400, anchor = "start", ink = "ink" } = {}) => ({ mark: "text", x, y, size, text: words, weight, anchor, ink });

export const lines = (x, y, size, leading, texts, { weight = 400, ink = "ink", anchor = "start" } = {}) => ({ mark: "lines", x, y, size, leading, lines: texts, weight, anchor, ink });

export const heading = (level, mark) => ({ ...mark, level });

export const rect = (x, y, width, height, fill, { hatch = "", edge = "", edge_width = 0 } = {}) => ({ mark: "rect", x, y, width, height, fill, hatch, edge, edge_width });

export const line = (x1, y1, x2, y2, width, ink) => ({ mark: "line", x1, y1, x2, y2, width, ink, dashed: false });

export const polygon = (points, fill) => ({ mark: "polygon", points, fill });

export const picture = (x, y, width, height, name, alt) => ({ mark: "picture", x, y, width, height, name, alt });

export const group = (alt, marks) => ({ mark: "group", alt, marks });
