// Each .glb named, as the Khronos Group's validator judges it, and what the library manifold-3d makes of its triangles, as
// JSON: how many errors and warnings, the messages, and what the solid holds. glTF-Transform, which
// manifold-3d brings, reads the triangles.
import {readFileSync} from 'node:fs';
import {need} from './from.mjs';
import {solid} from './solid.mjs';

const {NodeIO} = need('@gltf-transform/core');
const all = [];
for (const file of process.argv.slice(2)) {
  const data = new Uint8Array(readFileSync(file));
  const report = await need('gltf-validator').validateBytes(data, {maxIssues: 1000});
  const out = {errors: report.issues.numErrors, warnings: report.issues.numWarnings,
    messages: report.issues.messages.map(m => `${m.code} ${m.pointer ?? ''}: ${m.message}`),
    drawn: report.info?.drawCallCount ?? 0, triangles: report.info?.totalTriangleCount ?? 0};
  all.push(out);
  if (out.errors > 0) continue;
  const corners = [];
  for (const mesh of (await new NodeIO().readBinary(data)).getRoot().listMeshes()) {
    for (const p of mesh.listPrimitives()) {
      const at = p.getAttribute('POSITION'), index = p.getIndices();
      for (let i = 0; i < index.getCount(); i++) corners.push(at.getElement(index.getScalar(i), []));
    }
  }
  Object.assign(out, solid(corners));
}
console.log(JSON.stringify(all));
