// Fetches the program, shows how far it is, unpacks and starts it; or says in
// plain words why it can't.
'use strict';
(() => {
  const words = document.getElementById('load-words');
  const bar = document.getElementById('load-bar');
  const say = (text) => { words.textContent = text; bar.hidden = true; document.getElementById('load').classList.add('plain'); };

  // Tab and the browser's own shortcuts are let through before the canvas takes them.
  addEventListener('keydown', (e) => {
    if (e.target instanceof HTMLCanvasElement && (e.key === 'Tab' || e.ctrlKey || e.metaKey || /^F\d+$/.test(e.key))) e.stopPropagation();
  }, true);

  const unpacked = async (address, progress) => {
    const answer = await fetch(address);
    if (!answer.ok) throw new Error(`${address}: ${answer.status} ${answer.statusText}`);
    const whole = Number(answer.headers.get('Content-Length')) || 3.3e6;
    const reader = answer.body.getReader();
    const pieces = [];
    let got = 0;
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      pieces.push(value);
      got += value.length;
      if (progress) progress(Math.min(got / whole, 1));
    }
    const blob = new Blob(pieces);
    const head = new Uint8Array(await blob.slice(0, 2).arrayBuffer());
    // Some hosts unpack a .gz on their own.
    const stream = head[0] === 0x1f && head[1] === 0x8b ? blob.stream().pipeThrough(new DecompressionStream('gzip')) : blob.stream();
    return WebAssembly.compileStreaming(new Response(stream, { headers: { 'Content-Type': 'application/wasm' } }));
  };

  // The program asks for the second one's module when its first picture stands, for the third one's when it is needed.
  const modules = {};
  globalThis.dryfoldModule = (name) => (modules[name] ??= unpacked(name + '.gz').catch((error) => { delete modules[name]; throw error; }));

  const start = async () => {
    if (typeof WebAssembly !== 'object' || typeof WebAssembly.compileStreaming !== 'function' || typeof DecompressionStream !== 'function') {
      say('This browser can’t run the program: WebAssembly, or unpacking it, is missing. A current Firefox, Chrome, Edge or Safari will do.');
      return;
    }
    if (!document.createElement('canvas').getContext('webgl2')) {
      say('This browser can’t draw the part: WebGL 2 is missing or switched off. Switch on graphics acceleration in its settings, or use another browser or device.');
      return;
    }
    try {
      const module = await unpacked('dryfold.wasm.gz', (share) => { bar.value = share; if (share === 1) words.textContent = 'Setting up…'; });
      const go = new Go();
      const instance = await WebAssembly.instantiate(module, go.importObject);
      await go.run(instance);
      say('The program has stopped. Your work is kept in this browser: load the page again to go on.');
      document.getElementById('load').hidden = false;
    } catch (error) {
      say(`The program could not be fetched or started (${error.message}). Load the page again; if that doesn’t help, try later.`);
    }
  };
  start();
})();
