// Starts the program and shows trouble when it stops. Everything else is the program's.
//
// Seams between this file and the program (src/main.rs), all on `globalThis`:
//   longsmokePanic(message)  the program's panic hook calls it; shows the trouble block
//   longsmokeWorker()        the program calls it; a new worker, whose own program (src/worker.rs)
//                            is fetched when the first is made
//   longsmokeGive(name, text)
//                            the program calls it; keeps a file, or prints where there is no name
//   longsmokeInflate(bytes)  the program calls it; a promise of what the deflate stream holds
//   longsmokeLink            the program sets it: absolute link that carries the present design; empty
//                            where none can
import init from '#wasm/page.js';
import { give } from './give.js';
import { inflate } from './inflate.js';
import { speak } from './language.js';
import { keepOnDevice } from './offline.js';
import { trusted } from './trusted.js';
import worker from './worker.js?worker&url';

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

/** Link that carries the design, if there is one; empty where no link can. */
const present = () => globalThis.longsmokeLink ?? (new URL(opened).hash && opened);

globalThis.longsmokePanic = (message) => {
  const link = present();
  byId('broken-link').href = link;
  byId('broken-with').hidden = !link;
  byId('broken-without').hidden = Boolean(link);
  show('broken', message);
};
// That of the last change may come after the trouble.
for (const event of ['pointerdown', 'focus', 'click']) {
  byId('broken-link').addEventListener(event, ({ currentTarget }) => { currentTarget.href = present(); });
}

globalThis.longsmokeGive = give;
globalThis.longsmokeInflate = inflate;

globalThis.longsmokeWorker = () => {
  const started = new Worker(trusted.createScriptURL(worker), { type: 'module' });
  started.postMessage({ words: globalThis.longsmokeWords ?? '' });
  return started;
};

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

await speak();
try {
  // The program takes the shell away as it puts itself there, once it has unpacked the link, if any.
  await init();
} catch (error) {
  if (fatal(error)) globalThis.longsmokePanic(error);
  else show('absent', error);
}

// Even after trouble, for a newer release may be the way out. What `make serve` builds is not kept:
// it would stand before what is built next.
if (import.meta.env.MODE === 'dist') keepOnDevice();
