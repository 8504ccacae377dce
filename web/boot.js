// Starts the program and shows trouble when it stops. Everything else is the program's.
//
// Seams between this file and the program (src/main.rs), all on `globalThis`:
//   longsmokePanic(message)  the program's panic hook calls it; shows the trouble block
//   longsmokeWorker()        the program calls it; a new worker, whose own program (src/worker.rs)
//                            is fetched when the first is made
//   longsmokeLink            the program sets it: absolute link that carries the present design
import init from '#wasm/page.js';

// The program cleans the address bar after it has read a link, so keep what was opened.
const opened = location.href;
const byId = (id) => document.getElementById(id);

function show(trouble, message) {
  // The first trouble is the cause; a panic is followed by a trap, and perhaps by more.
  if (!byId('broken').hidden || !byId('absent').hidden) return;
  byId('page').inert = true;
  byId(`${trouble}-message`).textContent = String(message);
  byId(trouble).hidden = false;
  byId(trouble).focus();
}

globalThis.longsmokePanic = (message) => {
  byId('broken-link').href = globalThis.longsmokeLink ?? opened;
  show('broken', message);
};

// Vite recognizes exactly this expression and bundles the worker.
globalThis.longsmokeWorker = () =>
  new Worker(new URL('./worker.js', import.meta.url), { type: 'module' });

// What ends the program without a panic: no memory (a trap), too deep a recursion (a RangeError).
function fatal(error) {
  return error instanceof WebAssembly.RuntimeError
    || (error instanceof RangeError && /wasm/.test(error.stack));
}
addEventListener('error', (event) => {
  if (fatal(event.error)) globalThis.longsmokePanic(event.error);
});
addEventListener('unhandledrejection', (event) => {
  if (fatal(event.reason)) globalThis.longsmokePanic(event.reason);
});

for (const trouble of ['broken', 'absent']) {
  byId(`${trouble}-reload`).addEventListener('click', () => location.reload());
}

try {
  await init();
  // The program's `main` has run and mounted; no frame was painted in between.
  byId('shell').remove();
} catch (error) {
  if (fatal(error)) globalThis.longsmokePanic(error);
  else show('absent', error);
}
