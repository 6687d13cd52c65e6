// The second program, the third or the fourth: they check and draw parts, so that the page
// never waits. Each is told its compiled module first, then parts.
'use strict';
importScripts('wasm_exec.js');
onmessage = async (first) => {
  const go = new Go();
  go.run(await WebAssembly.instantiate(first.data, go.importObject));
};
