// How long the library manifold-3d takes for the least gap of two convex bodies: those of PAIRS.txt (see
// bullet.cpp) as hulls of their points, looked for within half as much again as the gap that
// BULLET.json tells. Pairs that overlap have no gap and are left out.
//
//   node gaps.mjs PAIRS.txt BULLET.json TIMES.txt
import {readFileSync, writeFileSync} from 'node:fs';
import {pathToFileURL} from 'node:url';
import {join} from 'node:path';

const [input, known, output] = process.argv.slice(2);
const {default: Module} = await import(pathToFileURL(join(process.cwd(), 'node_modules', 'manifold-3d', 'manifold.js')));
const lib = await Module();
lib.setup();
const {Manifold} = lib;

function body(words) {
  const vec = () => [0, 1, 2].map(() => Number(words.shift()));
  const points = [];
  if (words.shift() === 'box') {
    const o = vec(), axes = [vec(), vec(), vec()], half = vec();
    for (let k = 0; k < 8; k++) {
      points.push(o.map((x, i) => axes.reduce((s, a, j) => s + a[i] * half[j] * (k >> j & 1 ? 1 : -1), x)));
    }
  } else {
    for (let n = Number(words.shift()); n > 0; n--) points.push(vec());
  }
  return Manifold.hull(points);
}

const gaps = JSON.parse(readFileSync(known, 'utf8')).pairs.map(p => p.d);
const sum = new Map(), count = new Map();
readFileSync(input, 'utf8').trim().split('\n').forEach((line, i) => {
  if (!(gaps[i] > 0)) return;
  const [kind, rest] = line.split(';');
  const words = rest.trim().split(' ');
  const a = body(words), b = body(words);
  let best = Infinity;
  for (let rep = 0; rep < 5; rep++) {
    const times = 5, start = performance.now();
    for (let k = 0; k < times; k++) a.minGap(b, gaps[i] * 1.5);
    best = Math.min(best, (performance.now() - start) * 1e6 / times);
  }
  a.delete();
  b.delete();
  sum.set(kind, (sum.get(kind) ?? 0) + best);
  count.set(kind, (count.get(kind) ?? 0) + 1);
});
writeFileSync(output, [...sum].map(([k, s]) => `${k};${(s / count.get(k)).toFixed(0)}\n`).join(''));
