// A tray's progress: from a log of its temperatures to the days on which seedlings are due.

import { mountCalculator } from "../frame.js";
import { offerLogFile } from "../log_file.js";
import { workOut } from "./answer.js";
import { FIELDS, LINES, example, readEntry } from "./entry.js";
import { show } from "./view.js";

mountCalculator({
  name: "tray", fields: FIELDS, lines: LINES, example, read: readEntry, workOut, show,
  extra: (section, state) => offerLogFile(section, state, "log"),
});
