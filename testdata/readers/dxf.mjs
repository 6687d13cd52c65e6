// What dxf-parser reads in DXF files, measured: areas and lengths by each arc's bulge, what is open, drawn twice or
// without length. Writes a JSON list, one object for each file. With -picture first, writes an SVG of what was read instead.
//
//   node dxf.mjs [-picture] FILE.dxf...
import {need} from './from.mjs';

const {readFileSync} = need('node:fs');
const Parser = need('dxf-parser');
const DxfParser = Parser.DxfParser ?? Parser.default ?? Parser;

let files = process.argv.slice(2);
const picture = files[0] === '-picture';
if (picture) files = files.slice(1);

// arc of a bulge: the tangent of a quarter of its angle, positive counter-clockwise.
function piece(a, b, bulge) {
  const dx = b.x - a.x, dy = b.y - a.y, chord = Math.hypot(dx, dy);
  const p = {from: a, to: b, chord, length: chord, bow: 0};
  if (!bulge) return p;
  const angle = 4 * Math.atan(bulge);
  const away = (1 - bulge * bulge) / (4 * bulge); // of the centre from the chord, in chords
  p.radius = chord * (1 + bulge * bulge) / (4 * Math.abs(bulge));
  p.centre = {x: (a.x + b.x) / 2 - away * dy, y: (a.y + b.y) / 2 + away * dx};
  p.angle = angle;
  p.length = Math.abs(angle) * p.radius;
  p.bow = p.radius * p.radius / 2 * (angle - Math.sin(angle));
  return p;
}

function read(file) {
  const text = readFileSync(file, 'utf8');
  const dxf = new DxfParser().parseSync(text);
  if (!dxf || !dxf.entities) throw new Error(file + ': nothing read');
  const out = {header: dxf.header, layers: Object.keys(dxf.tables.layer.layers), areas: {}, lengths: {}, counts: {}, open: 0, short: 0, twice: 0, arcs: [], texts: []};
  const seen = new Set(), drawn = [];
  const add = (map, key, x) => { map[key] = (map[key] ?? 0) + x; };
  const once = (layer, ...numbers) => {
    const key = layer + ' ' + numbers.map(x => x.toFixed(6)).join(' ');
    if (seen.has(key)) out.twice++;
    seen.add(key);
  };
  const pieceOnce = (layer, a, b, rest) => {
    if (a.x > b.x || a.x === b.x && a.y > b.y) once(layer, b.x, b.y, a.x, a.y, -rest);
    else once(layer, a.x, a.y, b.x, b.y, rest);
  };
  for (const e of dxf.entities) {
    add(out.counts, e.layer + ' ' + e.type, 1);
    switch (e.type) {
    case 'LINE': {
      const [a, b] = e.vertices, length = Math.hypot(b.x - a.x, b.y - a.y);
      if (length < 1e-6) out.short++;
      add(out.lengths, e.layer, length);
      pieceOnce(e.layer, a, b, 0);
      drawn.push(`M${a.x} ${-a.y}L${b.x} ${-b.y}`);
      break;
    }
    case 'CIRCLE':
      add(out.areas, e.layer, Math.PI * e.radius * e.radius);
      add(out.lengths, e.layer, 2 * Math.PI * e.radius);
      once(e.layer, e.center.x, e.center.y, e.radius);
      drawn.push(`M${e.center.x - e.radius} ${-e.center.y}a${e.radius} ${e.radius} 0 0 0 ${2 * e.radius} 0a${e.radius} ${e.radius} 0 0 0 ${-2 * e.radius} 0Z`);
      break;
    case 'POLYLINE': {
      const v = e.vertices, o = v[0];
      if (!e.shape) out.open++;
      let area = 0, d = `M${o.x} ${-o.y}`;
      for (let i = 0; i < v.length - (e.shape ? 0 : 1); i++) {
        const a = v[i], b = v[(i + 1) % v.length], p = piece(a, b, a.bulge);
        if (p.length < 1e-6) out.short++;
        area += ((a.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.y - o.y)) / 2 + p.bow;
        add(out.lengths, e.layer, p.length);
        pieceOnce(e.layer, a, b, a.bulge ?? 0);
        if (a.bulge) {
          out.arcs.push({layer: e.layer, centre: [p.centre.x, p.centre.y], radius: p.radius, angle: p.angle});
          d += `A${p.radius} ${p.radius} 0 ${Math.abs(a.bulge) > 1 ? 1 : 0} ${a.bulge > 0 ? 0 : 1} ${b.x} ${-b.y}`;
        } else {
          d += `L${b.x} ${-b.y}`;
        }
      }
      if (e.shape) add(out.areas, e.layer, area);
      drawn.push(d);
      break;
    }
    case 'TEXT':
      out.texts.push(e.text);
      drawn.push({text: e.text, at: e.startPoint, height: e.textHeight});
      break;
    default:
      throw new Error(`${file}: a ${e.type}`);
    }
  }
  return [out, drawn];
}

if (picture) {
  const [out, drawn] = read(files[0]);
  const lo = out.header.$EXTMIN, hi = out.header.$EXTMAX, w = hi.x - lo.x, h = hi.y - lo.y, m = w / 50;
  console.log(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="${lo.x - m} ${-hi.y - m} ${w + 2 * m} ${h + 2 * m}">`);
  for (const d of drawn) {
    if (d.text) console.log(`<text x="${d.at.x}" y="${-d.at.y}" font-size="${d.height * 1.4}">${d.text.replace(/[<&>]/g, '?')}</text>`);
    else console.log(`<path fill="none" stroke="#000" stroke-width="${w / 1000}" d="${d}"/>`);
  }
  console.log('</svg>');
} else {
  console.log(JSON.stringify(files.map(f => read(f)[0])));
}
