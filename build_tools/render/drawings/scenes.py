"""The drawings themselves, each on a field of 320 × 200."""

from __future__ import annotations

from .shapes import arrow, drop, lines, path, seed, seedling, tray, words

TOWEL = "M34 34C90 28 150 38 210 33C245 30 270 35 288 33C284 70 290 110 286 166C240 171 190 164 140 168C100 171 66 166 36 168C30 120 38 80 34 34Z"


def towel_lay() -> str:
    rows = "".join(seed(74 + 43 * column, 74 + 52 * row, 20 * (-1) ** (column + row), 9) for row in range(2) for column in range(5))
    return path(TOWEL, fill="towel") + path("M46 46C120 42 200 48 276 45M47 156C120 160 200 154 275 156", width=1.2, dashed=True) + rows + drop(20, 90) + drop(302, 60) + drop(304, 118)


def towel_roll() -> str:
    flat = path("M46 100H152V152H46Z", fill="towel") + '<circle class="tint-towel" cx="46" cy="126" r="27"/>' + path("M46 152C22 152 24 108 46 108C64 108 64 140 48 140C36 140 38 120 47 122", width=2)
    out = "".join(seed(92 + 22 * i, 126, 15, 7) for i in range(3)) + arrow(150, 78, 84, 78)
    bag = path("M186 20H302V180H186Z", fill="towel") + path("M186 34H302", width=2) + "".join(f'<circle cx="{x}" cy="49" r="3" stroke-width="1.6"/>' for x in (204, 224, 244, 264, 284))
    rolled = path("M206 68H280C292 68 292 104 280 104H206C196 104 196 68 206 68Z", fill="paper") + path("M280 68C271 68 271 104 280 104", width=2)
    label = path("M200 120H288V170H200Z", fill="paper", width=2) + words(206, 138, "lot", anchor="start") + lines(230, 138, 50, 1, 1) + words(206, 161, "date", anchor="start") + lines(238, 161, 42, 1, 1)
    return flat + out + bag + rolled + label


def towel_count() -> str:
    good = "".join(seedling(56 + 48 * i, 104, 40, 34) for i in range(3))
    bad = path("M212 112C222 98 206 90 213 74") + seed(212, 113, 60, 8)  # a shoot without a root
    none = seed(271, 106, 20, 10)
    frames = path("M30 156V164H178V156M188 156V164H236V156M246 156V164H298V156", width=2)
    return path("M20 26C120 20 210 30 302 24C298 70 304 110 300 150C220 155 110 147 22 152C16 110 24 70 20 26Z", fill="towel") + good + bad + none + frames + words(104, 184, "normal") + words(212, 184, "no root") + words(272, 184, "nothing")


def soak_under_towel() -> str:
    bowl = path("M50 70C54 140 100 178 160 178C220 178 266 140 270 70")
    water = path("M53 86C60 140 102 175 160 175C218 175 260 140 267 86Z", fill="water", width=1)
    sunk = "".join(seed(x, y, a, 9) for x, y, a in ((120, 158, 10), (146, 166, -15), (174, 167, 20), (200, 158, -8), (160, 150, 30), (186, 148, 5)))
    floating = "".join(seed(x, 104, a, 9) for x, a in ((112, 10), (152, -12), (206, 15)))
    towel = path("M30 104C30 70 44 60 58 66C72 74 86 90 118 86C150 82 180 92 206 86C236 80 252 70 264 64C278 58 292 72 292 104C286 100 280 98 276 82C262 82 240 98 208 97C176 100 150 94 120 98C88 102 66 88 48 80C42 92 36 100 30 104Z", fill="towel")
    return water + bowl + sunk + floating + towel + words(160, 54, "wet towel") + arrow(160, 60, 160, 80)


def nick() -> str:
    bean = path("M128 100C124 64 158 50 188 62C218 76 218 124 190 138C158 152 132 136 128 100Z", fill="seed")
    eye = path("M140 78C132 90 132 110 140 122", width=6)
    pliers = path("M14 66C44 74 66 88 84 100C108 118 126 136 152 143M14 134C44 126 66 112 84 100C108 82 126 64 152 57", width=8) + '<circle class="tint-paper" cx="84" cy="100" r="8"/>'
    clippers = path("M304 66C276 70 246 78 214 96M304 134C276 130 246 122 214 104", width=8)
    return bean + pliers + eye + clippers + words(70, 40, "fingers back here") + path("M48 48L34 62", width=1.5) + words(150, 178, "eye") + path("M146 164C142 152 140 142 139 130", width=1.5) + words(248, 178, "nick, opposite the eye", size=13) + path("M226 164C218 146 214 126 213 112", width=1.5) + words(270, 52, "clippers")


def sandpaper() -> str:
    table = path("M14 158H306")
    lower, upper = path("M36 144H284V156H36Z", fill="seed"), path("M64 92H256V104H64Z", fill="seed")
    grit = "".join(f'<circle cx="{44 + 9.7 * i:g}" cy="140" r="1.4" stroke="none" fill="currentColor"/>' for i in range(25)) + "".join(f'<circle cx="{72 + 9.7 * i:g}" cy="108" r="1.4" stroke="none" fill="currentColor"/>' for i in range(19))
    seeds = "".join(seed(88 + 36 * i, 124, 12 * (-1) ** i, 13) for i in range(5))
    return table + lower + grit + upper + seeds + arrow(84, 70, 236, 70, both=True) + words(160, 52, "rub to and fro, flat hand on top") + words(160, 182, "sandpaper below and above")


def depth_and_light() -> str:
    surface = 84
    soil = path(f"M10 {surface}C60 {surface - 3} 110 {surface + 3} 160 {surface}C210 {surface - 3} 260 {surface + 3} 310 {surface}V160H10Z", fill="soil")
    sun = '<circle class="tint-paper" cx="60" cy="26" r="11"/>' + path("M60 44V52M44 38L38 46M76 38L82 46M38 26H30M82 26H90", width=2)
    light = path("M50 56L52 70M60 56V70M70 56L68 70", width=1.5, dashed=True)
    pressed = seed(60, surface - 2, 0, 11)
    thin = seed(160, surface + 14, 0, 11)
    deep = seed(262, surface + 48, 0, 15) + seed(262, surface + 29, 0, 15, dashed=True) + seed(262, surface + 10, 0, 15, dashed=True)
    measure = path(f"M292 {surface}H302M297 {surface}V{surface + 39}M292 {surface + 39}H302", width=2)
    return soil + sun + light + pressed + thin + deep + measure + words(60, 182, "pressed in") + words(160, 182, "just covered") + words(262, 182, "two seeds deep")


def dome_off() -> str:
    before = tray(22, 140, 112) + path("M18 138C20 84 40 74 78 74C116 74 136 84 138 138", width=2) + "".join(seed(48 + 30 * i, 160, 0, 5) for i in range(3))
    after = tray(190, 140, 112) + "".join(seedling(212 + 34 * i, 148, 24, 16) for i in range(3))
    dome = path("M188 60C190 24 208 14 246 14C284 14 302 24 304 60H188", width=2)
    return before + arrow(150, 124, 178, 124) + after + dome + arrow(246, 98, 246, 36)


def warm_place() -> str:
    mat, shelf = path("M18 170H214V180H18Z", fill="tool"), path("M10 183H310")
    pot = tray(32, 132, 164, 36) + seedling(74, 144, 26, 14) + seedling(112, 144, 26, 14)
    probe = path("M158 92V158", width=4) + path("M158 92C158 58 180 50 204 50", width=2)
    box = path("M204 30H262V72H204Z", fill="paper") + '<circle cx="233" cy="51" r="12" stroke-width="2"/>' + path("M233 51L240 43", width=2)
    to_mat = path("M214 175C246 176 226 120 232 72", width=2)
    plug = path("M280 14H308V44H280Z", fill="paper") + path("M289 24V30M299 24V30", width=2)
    loop = path("M262 58C280 60 268 104 284 104C300 104 294 70 294 44", width=2)
    return mat + shelf + pot + probe + box + to_mat + plug + loop + words(84, 70, "probe in the mix") + path("M118 76C136 82 148 96 154 112", width=1.5) + words(182, 20, "thermostat", size=13) + words(272, 126, "loop below") + words(272, 142, "the plug")


def label() -> str:
    packet = path("M30 24H150V180H30Z", fill="paper") + path("M30 44H150M30 24L44 12H136L150 24", width=2) + "".join(words(42, 72 + 30 * i, text, anchor="start") for i, text in enumerate(("crop", "lot", "year", "test"))) + "".join(path(f"M82 {72 + 30 * i}H138", width=1.5) for i in range(4))
    stick = path("M196 20H290V120L270 186H216L196 120Z", fill="paper") + "".join(words(204, 44 + 32 * i, text, anchor="start") for i, text in enumerate(("crop", "sown", "seeds"))) + "".join(path(f"M246 {44 + 32 * i}H280", width=1.5) for i in range(3))
    return packet + stick


def plug_tray() -> str:
    cells = "".join(path(f"M{22 + 56 * i} 96H{70 + 56 * i}L{63 + 56 * i} 150H{29 + 56 * i}Z", fill="soil") for i in range(5))
    up = "".join(seedling(46 + 56 * i, 110, 40, 26) for i in (0, 1, 3))
    stick = path("M252 40H284V92L268 104L252 92Z", fill="paper") + lines(258, 54, 20, 3, 12)
    return path("M12 90H308") + cells + up + stick + words(102, 176, "three up") + words(222, 176, "one seed a cell, two empty", size=13)


def thermometer() -> str:
    surface = 92
    soil = path(f"M10 {surface}C60 {surface - 3} 110 {surface + 3} 160 {surface}C210 {surface - 3} 260 {surface + 3} 310 {surface}V172H10Z", fill="soil")
    stem = path(f"M150 {surface - 34}V{surface + 40}", width=5)
    dial = f'<circle class="tint-paper" cx="150" cy="{surface - 54}" r="24"/>' + path(f"M150 {surface - 54}L162 {surface - 66}", width=2)
    lying = seed(96, surface + 38, 10, 11) + seed(206, surface + 38, -8, 11)
    depth = path(f"M248 {surface}H262M255 {surface}V{surface + 38}M248 {surface + 38}H262", width=2) + words(268, surface + 24, "depth", anchor="start", size=13)
    sun = '<circle class="tint-paper" cx="36" cy="70" r="11"/>' + path("M36 50V44M16 56L20 60M56 56L52 60", width=2) + path("M12 84H62", width=1.5)
    return soil + lying + stem + dial + depth + sun + words(36, 30, "early") + words(150, 190, "tip as deep as the seed")
