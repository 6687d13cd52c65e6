// Solids of folded parts by the library manifold-3d: volumes, boxes, least gaps,
// overlaps. It takes the blank's panels and zones as flat outlines and does the rest
// by itself: rolling each zone on to the nose, placing panel on panel, triangles.
//
//   node manifold.mjs GEOMETRY.json OUT.json
//
// Bend zones are cut into strips, flat across; their chords stay within `facet`
// of the true cylinder, and that is all the error there is.
import {readFileSync, writeFileSync} from 'node:fs';
import {createRequire} from 'node:module';
import {pathToFileURL} from 'node:url';
import {join} from 'node:path';

const [input, output] = process.argv.slice(2);
const home = join(process.cwd(), 'node_modules', 'manifold-3d');
const {default: Module} = await import(pathToFileURL(join(home, 'manifold.js')));
const version = createRequire(import.meta.url)(join(home, 'package.json')).version;
const lib = await Module();
lib.setup();
const {Manifold, CrossSection} = lib;

const facet = 0.002; // mm
const reach = 30;    // mm; gaps wider than this are not looked for

const add = (a, b) => a.map((x, i) => x + b[i]);
const mul = (a, k) => a.map(x => x * k);
const dot = (a, b) => a.reduce((s, x, i) => s + x * b[i], 0);

// A placement as [X, Y, Z, O].
const apply = (f, p) => add(f[3], add(mul(f[0], p[0]), add(mul(f[1], p[1]), mul(f[2], p[2]))));
const turn = (f, v) => add(mul(f[0], v[0]), add(mul(f[1], v[1]), mul(f[2], v[2])));
const flat = [[1, 0, 0], [0, 1, 0], [0, 0, 1], [0, 0, 0]];

// roll places a blank point (p, z) of bend b at angle phi in the held panel's axes: the
// neutral line keeps its length, the first rho*phi of it lies on the circle.
function roll(b, t, phi, p, z, beyond) {
  const d = [p[0] - b.q[0], p[1] - b.q[1]];
  const along = dot(d, b.u), s = dot(d, b.n);
  const sigma = b.up ? 1 : -1;
  const zn = b.up ? t - b.k * t : b.k * t;
  const rho = b.radius + b.k * t;
  const a = beyond ? phi : Math.min(Math.max(s, 0) / rho, phi);
  const straight = s - rho * a;
  const h = z - zn;
  // centre of the circle at height zn + sigma*rho over the held tangent line
  const radius = rho - sigma * h;
  const out = radius * Math.sin(a) + straight * Math.cos(a);
  const up = zn + sigma * (rho - radius * Math.cos(a) + straight * Math.sin(a));
  return [b.q[0] + b.u[0] * along + b.n[0] * out, b.q[1] + b.u[1] * along + b.n[1] * out, up];
}

function hinge(b, t, phi) {
  const o = roll(b, t, phi, [0, 0], 0, true);
  const d = (p, z) => add(roll(b, t, phi, p, z, true), mul(o, -1));
  return [d([1, 0], 0), d([0, 1], 0), d([0, 0], 1), o];
}

function place(part, state) {
  const frames = new Array(part.panels.length);
  frames[part.base] = flat;
  for (let left = part.bends.length; left > 0;) {
    let moved = false;
    part.bends.forEach((b, i) => {
      if (!frames[b.a] || frames[b.b]) return;
      const h = hinge(b, part.thickness, state[i]), f = frames[b.a];
      frames[b.b] = [turn(f, h[0]), turn(f, h[1]), turn(f, h[2]), apply(f, h[3])];
      left--;
      moved = true;
    });
    if (!moved) throw new Error('panels do not hang together');
  }
  return frames;
}

function panelSolid(part, i, f) {
  const m = new CrossSection(part.panels[i].loops, 'EvenOdd').extrude(part.thickness);
  return [m.warp(v => { const w = apply(f, [v[0], v[1], v[2]]); v[0] = w[0]; v[1] = w[1]; v[2] = w[2]; })];
}

// The zone in strips, each a solid of its own.
function zoneSolids(part, i, f, phi) {
  const b = part.bends[i], t = part.thickness, rho = b.radius + b.k * t;
  const ba = b.allowance, bent = rho * phi, r = b.radius + t;
  const n = Math.max(1, Math.ceil(phi / (2 * Math.acos(Math.max(0, 1 - facet / r)))));
  const cuts = [-1];
  for (let k = 1; k < n; k++) cuts.push(bent * k / n);
  if (bent < ba - 1e-9 && bent > 0) cuts.push(bent);
  cuts.push(ba + 1);
  const out = [];
  for (let k = 0; k + 1 < cuts.length; k++) {
    const corner = (s, a) => [b.q[0] + b.n[0] * s + b.u[0] * a, b.q[1] + b.n[1] * s + b.u[1] * a];
    const strip = new CrossSection([[corner(cuts[k], -1e4), corner(cuts[k], 1e4), corner(cuts[k + 1], 1e4), corner(cuts[k + 1], -1e4)]], 'EvenOdd');
    for (const zone of b.zones) {
      const cs = new CrossSection(zone, 'EvenOdd').intersect(strip);
      if (cs.isEmpty()) continue;
      out.push(cs.extrude(t).warp(v => {
        const w = apply(f, roll(b, t, phi, [v[0], v[1]], v[2], false));
        v[0] = w[0]; v[1] = w[1]; v[2] = w[2];
      }));
    }
  }
  return out;
}

const volume = ms => ms.reduce((s, m) => s + m.volume(), 0);

function boxOf(ms) {
  const box = {min: [Infinity, Infinity, Infinity], max: [-Infinity, -Infinity, -Infinity]};
  for (const m of ms) {
    const b = m.boundingBox();
    for (let k = 0; k < 3; k++) {
      box.min[k] = Math.min(box.min[k], b.min[k]);
      box.max[k] = Math.max(box.max[k], b.max[k]);
    }
  }
  return box;
}

const apart = (a, b) => Math.hypot(...[0, 1, 2].map(k => Math.max(0, a.min[k] - b.max[k], b.min[k] - a.max[k])));

const round = x => Number(x.toPrecision(12));

const parts = JSON.parse(readFileSync(input, 'utf8'));
const cases = [];
for (const part of parts) {
  for (const state of part.states) {
    const f = place(part, state);
    const bodies = part.panels.map((p, i) => ({name: 'panel ' + p.name, zone: -1, index: i, solids: panelSolid(part, i, f[i])}));
    part.bends.forEach((b, i) => bodies.push({name: 'bend ' + b.name, zone: i, index: i, solids: zoneSolids(part, i, f[b.a], state[i])}));
    for (const b of bodies) b.box = boxOf(b.solids);
    const pairs = [];
    for (let i = 0; i < bodies.length; i++) {
      for (let j = i + 1; j < bodies.length; j++) {
        const x = bodies[i], y = bodies[j];
        if (y.zone >= 0 && x.zone < 0 && (part.bends[y.zone].a === x.index || part.bends[y.zone].b === x.index)) continue;
        if (apart(x.box, y.box) > reach) continue;
        let over = 0, gap = reach;
        for (const p of x.solids) {
          for (const q of y.solids) {
            if (apart(boxOf([p]), boxOf([q])) >= gap) continue;
            const v = p.intersect(q).volume();
            over += v;
            gap = v > 0 ? 0 : Math.min(gap, p.minGap(q, reach));
          }
        }
        if (gap < reach) pairs.push({a: x.name, b: y.name, gap_mm: round(gap), overlap_mm3: round(over)});
      }
    }
    const whole = boxOf(bodies.flatMap(b => b.solids));
    cases.push({part: part.file, state_deg: state.map(a => round(a * 180 / Math.PI)),
      volumes_mm3: Object.fromEntries(bodies.map(b => [b.name, round(volume(b.solids))])),
      box: {min: whole.min.map(round), max: whole.max.map(round)}, pairs});
  }
  console.log(part.file, part.states.length, 'states');
}
writeFileSync(output, JSON.stringify({made_by: 'manifold-3d ' + version, facet_mm: facet, reach_mm: reach, cases}, null, 1) + '\n');
