import {load} from './from.mjs';

const {default: Module} = await load('manifold-3d', 'manifold.js');
const lib = await Module();
lib.setup();

// solid hands triangles, three corners each, to the library manifold-3d and gives what it finds: volume, surface,
// holes (genus), box. Corners in one place are made one, for the files keep them apart. Triangles
// that bound no solid are an error.
export function solid(corners) {
  const at = new Map(), points = [], index = [];
  for (const p of corners) {
    const key = p.map(x => x + 0).join();
    if (!at.has(key)) {
      at.set(key, at.size);
      points.push(...p);
    }
    index.push(at.get(key));
  }
  const m = new lib.Manifold(new lib.Mesh({numProp: 3, vertProperties: new Float32Array(points), triVerts: new Uint32Array(index)}));
  const box = m.boundingBox();
  return {volume: m.volume(), area: m.surfaceArea(), genus: m.genus(), min: box.min, max: box.max};
}
