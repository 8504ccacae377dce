// Runs the worker's program (src/worker.rs), which answers messages.
import init from '#wasm/worker.js';

// A panic ends this worker, not the page, which learns of it by a message of its own kind.
globalThis.longsmokePanic = (panic) => postMessage(JSON.stringify({ panic }));

// The browser delivers messages as soon as this script runs; the program listens only once it
// is compiled. Keep what comes before, and hand it over then.
// First of all comes the language (web/language.js), which the program reads when it starts.
const early = [];
let hear;
const words = new Promise((resolve) => { hear = resolve; });
const keep = ({ data }) => (data?.words === undefined ? early.push(data) : hear(data.words));
addEventListener('message', keep);
globalThis.longsmokeWords = await words;
await init();
removeEventListener('message', keep);
for (const data of early) dispatchEvent(new MessageEvent('message', { data }));
