// Each binary STL named, read by its layout (80 bytes, a count, 50 bytes a triangle), and what the library manifold-3d makes
// of its triangles, as JSON.
import {readFileSync} from 'node:fs';
import {solid} from './solid.mjs';

const all = [];
for (const file of process.argv.slice(2)) {
  const data = readFileSync(file);
  const n = data.readUInt32LE(80);
  if (data.length !== 84 + 50 * n) throw new Error(`${data.length} bytes for ${n} triangles`);
  const corners = [];
  for (let i = 0; i < n; i++) {
    for (let k = 1; k < 4; k++) corners.push([0, 4, 8].map(c => data.readFloatLE(84 + 50 * i + 12 * k + c)));
  }
  all.push({triangles: n, ...solid(corners)});
}
console.log(JSON.stringify(all));
