// The second program: it checks a part for clashes and measures its seams, so
// that the page never waits. It is told its compiled module first, then parts.
'use strict';
importScripts('wasm_exec.js');
onmessage = async (first) => {
  const go = new Go();
  go.run(await WebAssembly.instantiate(first.data, go.importObject));
};
