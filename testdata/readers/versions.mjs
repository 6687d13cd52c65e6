// The readers that are installed, with their versions as JSON; each is loaded.
import {need, load} from './from.mjs';

need('dxf-parser');
need('gltf-validator');
await load('manifold-3d', 'manifold.js');
const out = {};
for (const name of Object.keys(need('./package.json').dependencies)) {
  out[name] = JSON.parse(need('node:fs').readFileSync(`node_modules/${name}/package.json`, 'utf8')).version;
}
console.log(JSON.stringify(out));
