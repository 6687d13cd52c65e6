// Areas of polygons moved outwards by the library manifold-3d, corners round. The file holds a JSON list of
// {"loops": [[[x, y], ...], ...], "by": d}; loops fill by the even-odd rule. Writes a list of {"area", "loops"}.
import {need, load} from './from.mjs';

const {default: Module} = await load('manifold-3d', 'manifold.js');
const lib = await Module();
lib.setup();
const cases = JSON.parse(need('node:fs').readFileSync(process.argv[2], 'utf8'));
console.log(JSON.stringify(cases.map(c => {
  const s = new lib.CrossSection(c.loops, 'EvenOdd').offset(c.by, 'Round', 2, 512);
  return {area: s.area(), loops: s.numContour()};
})));
