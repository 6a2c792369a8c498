// The strokes of each drawing, on a sheet of 72 by 54. A leading * fills the shape. Schemes, not to scale: they show the one
// difference that the value's own words name, and nothing else.

const ring = (x, y, r) => `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0-${2 * r} 0`;
const dot = (x, y, r) => `*${ring(x, y, r)}`;
const box = (x, y, w, height) => `M${x} ${y}h${w}v${height}h-${w}z`;
const bars = (n, x, gap, top, foot) => `M${Array.from({ length: n }, (_, i) => `${x + i * gap} ${top}V${foot}`).join("M")}`;

// Pieces that several drawings share.
const SCREEN = "M14 42L20 14H52L58 42z";
const FRONT = "M6 46V30Q8 20 20 20H52Q64 20 66 30V46zM26 26H46V42H26z";
const WHEEL = [ring(36, 27, 22), ring(36, 27, 6)];
const BLADE = "M4 24H68V34H4z";
const TWO_WHEELS = [ring(18, 44, 6), ring(54, 44, 6)];
const REAR = "M14 48V16Q14 8 22 8H50Q58 8 58 16V48z";
const SIDE_WING = "M4 46V34Q10 16 34 16H68";

const low_lamps = [FRONT, ring(19, 34, 5), ring(53, 34, 5)];
const high_lamps = [FRONT, ring(14, 17, 6), ring(58, 17, 6)];
const two_panes = [SCREEN, "M36 14V42"];
const one_pane = ["M12 42Q16 20 22 14Q36 9 50 14Q56 20 60 42Q36 47 12 42z"];
const van = ["M4 44V32L14 28 20 14H66V44zM22 18H30V28H18z", ...TWO_WHEELS];
const pick_up = ["M4 44V32L14 28 20 14H38V30H66V44zM22 18H34V28H18zM38 30V44", ...TWO_WHEELS];
const estate = ["M4 44V32L14 28 20 14H66V44zM22 18H32V28H18zM36 18H46V28H36zM50 18H62V28H50z", ...TWO_WHEELS];
const saloon = (posts) => [`M4 44V32Q8 28 18 28L26 14H46L56 28Q66 28 68 34V44zM28 18H44L50 28H23z${posts}`, ...TWO_WHEELS];
const open_car = ["M4 44V32Q8 28 22 28H56Q66 28 68 34V44zM24 28L29 16", ...TWO_WHEELS];
const wiper = (x, y, dx) => `M${x} ${y}l${dx}-22`;
const handle_pull = ["M10 20H50Q60 20 60 26 60 32 50 32H44M16 20V36H10", dot(13, 28, 3)];
const handle_button = ["M12 22H60M14 22V34M58 22V34M12 34H60", dot(52, 28, 5)];
const post = "M14 4V50M30 4V50";
const gap = (right) => `M30 4V50${right}`;

export const shapes = {
  "aldermoor-carrier/headlamp-position/low": low_lamps,
  "aldermoor-carrier/headlamp-position/high": high_lamps,
  "aldermoor-carrier/grille/nine-bars": [box(8, 8, 56, 38), bars(9, 12, 6, 8, 46)],
  "aldermoor-carrier/grille/mesh": [box(8, 8, 56, 38), "M8 20L20 8M8 34L34 8M8 46L46 8M20 46L58 8M34 46L64 16M48 46L64 30M52 8L64 20M38 8L64 34M26 8L64 46M14 8L52 46M8 16L38 46M8 30L24 46"],
  "aldermoor-carrier/windscreen/two-panes": two_panes,
  "aldermoor-carrier/windscreen/one-pane": one_pane,
  "aldermoor-carrier/wipers/one": [SCREEN, wiper(26, 42, 8)],
  "aldermoor-carrier/wipers/two": [SCREEN, wiper(22, 42, 8), wiper(42, 42, 8)],
  "aldermoor-carrier/indicators/arms": [post, "M22 18L54 12 55 18 23 24z", dot(22, 21, 2.5)],
  "aldermoor-carrier/indicators/round-lamps": [ring(36, 18, 12), dot(36, 42, 5)],
  "aldermoor-carrier/indicators/square-lamps": [ring(36, 18, 12), `*${box(30, 37, 12, 10)}`],
  "aldermoor-carrier/body-style/van": van,
  "aldermoor-carrier/body-style/pick-up": pick_up,
  "aldermoor-carrier/body-style/estate": estate,
  "aldermoor-carrier/panel-gaps/even": ["M8 4V50M64 4V50", gap("M36 4V50")],
  "aldermoor-carrier/panel-gaps/uneven": ["M8 4V50M64 4V50", gap("M34 4L42 50")],
  "aldermoor-carrier/wheel-rims/four-slots": [...WHEEL, "M28 11Q36 8 44 11M28 43Q36 46 44 43M20 19Q17 27 20 35M52 19Q55 27 52 35"],
  "aldermoor-carrier/wheel-rims/six-holes": [...WHEEL, ...[0, 1, 2, 3, 4, 5].map((i) => ring(Math.round(36 + 14 * Math.cos(i * 1.0472)), Math.round(27 + 14 * Math.sin(i * 1.0472)), 3))],
  "aldermoor-carrier/door-handles/pull": handle_pull,
  "aldermoor-carrier/door-handles/button": handle_button,
  "aldermoor-carrier/rear-lamps/small-glass": [ring(36, 27, 8)],
  "aldermoor-carrier/rear-lamps/large-round": [ring(36, 27, 19), dot(36, 27, 7)],
  "aldermoor-carrier/rear-lamps/upright": ["M27 6H45V48H27zM27 28H45"],
  "aldermoor-carrier/rear-doors/two-doors": [REAR, "M36 8V48", "M32 28H29M40 28H43"],
  "aldermoor-carrier/rear-doors/one-door": [REAR, "M16 30H56M30 40H42"],

  "morris-minor/headlamp-position/low": low_lamps,
  "morris-minor/headlamp-position/high": high_lamps,
  "morris-minor/grille/honeycomb": [box(8, 8, 56, 38), bars(7, 16, 7, 8, 46), "M8 17H64M8 27H64M8 37H64"],
  "morris-minor/grille/slats": [box(8, 8, 56, 38), "M8 16H64M8 23H64M8 30H64M8 37H64"],
  "morris-minor/grille/crinkle": [box(8, 8, 56, 38), "M8 18q4-6 8 0t8 0 8 0 8 0 8 0 8 0 8 0M8 28q4-6 8 0t8 0 8 0 8 0 8 0 8 0 8 0M8 38q4-6 8 0t8 0 8 0 8 0 8 0 8 0 8 0"],
  "morris-minor/bumper/split": ["M4 22H30V34H4zM42 22H68V34H42z", "M30 25H42M30 31H42"],
  "morris-minor/bumper/one-piece": [BLADE],
  "morris-minor/windscreen/split": two_panes,
  "morris-minor/windscreen/curved": one_pane,
  "morris-minor/wipers/single": [SCREEN, wiper(26, 42, 8)],
  "morris-minor/wipers/clap-hands": [SCREEN, wiper(20, 42, 14), wiper(52, 42, -14)],
  "morris-minor/wipers/tandem": [SCREEN, wiper(22, 42, 10), wiper(40, 42, 10)],
  "morris-minor/body-style/saloon-2dr": saloon("M36 18V40"),
  "morris-minor/body-style/saloon-4dr": saloon("M34 18V40M44 28V40"),
  "morris-minor/body-style/open": open_car,
  "morris-minor/body-style/timber": [...estate, "M34 28V44M48 14V44M34 31H66"],
  "morris-minor/body-style/van": van,
  "morris-minor/body-style/pick-up": pick_up,
  "morris-minor/rear-window/small": [REAR, "M26 14H46V24H26z"],
  "morris-minor/rear-window/wide": [REAR, "M17 14Q36 11 55 14V25Q36 27 17 25z"],

  "mgb/wipers/two": [SCREEN, wiper(22, 42, 10), wiper(42, 42, 10)],
  "mgb/wipers/three": [SCREEN, wiper(20, 42, 8), wiper(33, 42, 8), wiper(46, 42, 8)],
  "mgb/rear-bumper/one": [BLADE],
  "mgb/rear-bumper/split": ["M4 24H26V34H4zM46 24H68V34H46z", box(30, 22, 12, 14)],
  "mgb/door-handles/pull": handle_pull,
  "mgb/door-handles/push": handle_button,

  "volkswagen-type1/rear-window/split": ["M34 16V38H24Q12 38 12 27 12 16 24 16zM38 16V38H48Q60 38 60 27 60 16 48 16z"],
  "volkswagen-type1/rear-window/oval": ["M12 27Q12 15 36 15 60 15 60 27 60 39 36 39 12 39 12 27z"],
  "volkswagen-type1/rear-window/rectangular": ["M14 15H58Q62 15 62 20V34Q62 39 58 39H14Q10 39 10 34V20Q10 15 14 15z"],
  "volkswagen-type1/headlamps/sloping": [SIDE_WING, "M16 24Q8 28 9 40", "M16 24L26 34 9 40"],
  "volkswagen-type1/headlamps/upright-sealed": [SIDE_WING, "M10 20V44M10 20Q22 22 24 32 22 42 10 44"],
  "volkswagen-type1/bumpers/grooved": ["M4 23H68V33H4zM4 28H68"],
  "volkswagen-type1/bumpers/rounded": ["M4 27Q4 22 10 22H62Q68 22 68 27 68 32 62 32H10Q4 32 4 27z", "M16 16V38H22V16zM50 16V38H56V16z"],
  "volkswagen-type1/bumpers/tubes": ["M4 35Q4 30 10 30H62Q68 30 68 35 68 40 62 40H10Q4 40 4 35z", "M16 10V44H22V10zM50 10V44H56V10z", "M6 15H66"],
  "volkswagen-type1/bumpers/box": ["M4 18H68V36H4z", "M4 26H68M4 29H68"],
  "volkswagen-type1/wheel-bolts/five": [ring(36, 27, 22), ring(36, 27, 9), ...[0, 1, 2, 3, 4].map((i) => dot(Math.round(36 + 16 * Math.sin(i * 1.2566)), Math.round(27 - 16 * Math.cos(i * 1.2566)), 2.5))],
  "volkswagen-type1/wheel-bolts/four": [ring(36, 27, 22), ring(36, 27, 5), ...[[27, 18], [45, 18], [27, 36], [45, 36]].map(([x, y]) => dot(x, y, 2.5))],
  "volkswagen-type1/exhaust/one": [ring(36, 30, 8), "M6 18H66"],
  "volkswagen-type1/exhaust/two": [ring(22, 30, 8), ring(50, 30, 8), "M6 18H66"],
  "volkswagen-type1/semaphores/pillar": [post, "M22 18L54 12 55 18 23 24z", dot(22, 21, 2.5)],

  "willys-4x4/front-cross-member/tube": [ring(36, 27, 13)],
  "willys-4x4/front-cross-member/channel": ["M20 44V14H52V44H46V20H26V44z"],
  "willys-4x4/grille/slat": ["M10 8V46M20 8V46M30 8V46M40 8V46M50 8V46M60 8V46M4 12H66M4 42H66"],
  "willys-4x4/grille/nine-slot": [box(3, 6, 66, 42), ...Array.from({ length: 9 }, (_, i) => box(7 + i * 6.5, 12, 3, 30))],
  "willys-4x4/grille/seven-low": [box(3, 12, 66, 32), ...Array.from({ length: 7 }, (_, i) => box(9 + i * 8, 17, 4, 22))],
  "willys-4x4/grille/seven-high": [box(3, 3, 66, 48), ...Array.from({ length: 7 }, (_, i) => box(9 + i * 8, 9, 4, 36))],
  "willys-4x4/windscreen-panes/two-low": [box(8, 18, 56, 20), "M36 18V38"],
  "willys-4x4/windscreen-panes/two": [box(8, 10, 56, 34), "M36 10V44"],
  "willys-4x4/windscreen-panes/one": [box(8, 10, 56, 34)],
  "willys-4x4/front-wing-shape/flat": ["M6 24H60V28H6zM60 26L68 34", ring(34, 42, 9)],
  "willys-4x4/front-wing-shape/round": ["M6 34Q8 16 34 16 60 16 64 34", ring(34, 42, 9)],
  "willys-4x4/rear-arch-shape/round": ["M4 46H14Q14 20 36 20 58 20 58 46H68"],
  "willys-4x4/rear-arch-shape/squared": ["M4 46H14V26L22 20H50L58 26V46H68"],
  "willys-4x4/rear-lamps/one": ["M4 12H68V44H4z", dot(16, 28, 5)],
  "willys-4x4/rear-lamps/two": ["M4 12H68V44H4z", dot(16, 28, 5), dot(56, 28, 5)],
};
