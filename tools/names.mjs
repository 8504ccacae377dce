// Shortens the names under which a program imports from its script: each carries a hash, which no
// download can shrink.
//
//   node tools/names.mjs build/wasm/dist/page
//
// takes PAGE_bg.wasm and PAGE.js, and writes both anew.
import { readFile, writeFile } from 'node:fs/promises';

const IMPORTS = 2;
/** What the script hands over. What else there is, has its names from its own files. */
const SCRIPT = /_bg\.js$/;
const FUNCTION = 0;

/** Reads numbers and names of a program, in its order. */
class Reader {
  constructor(bytes, at = 0) {
    Object.assign(this, { bytes, at });
  }

  number() {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = this.bytes[this.at++];
      value += (byte & 127) * 2 ** shift;
      if (byte < 128) return value;
    }
  }

  take(length) {
    this.at += length;
    return this.bytes.subarray(this.at - length, this.at);
  }

  name() {
    return this.take(this.number());
  }
}

function number(value) {
  const bytes = [];
  for (; value > 127; value = Math.floor(value / 128)) bytes.push((value % 128) + 128);
  return Buffer.from([...bytes, value]);
}

const named = (bytes) => Buffer.concat([number(bytes.length), bytes]);

/** The section of imports under short names, and which of them stands for which. */
function shorten(section) {
  const reader = new Reader(section);
  const count = reader.number();
  const short = new Map();
  const parts = [number(count)];
  for (let index = 0; index < count; index += 1) {
    const module = reader.name();
    const name = reader.name().toString();
    if (reader.take(1)[0] !== FUNCTION) throw new Error(`${name} is no function`);
    const isScript = SCRIPT.test(module.toString());
    if (isScript && !short.has(name)) short.set(name, `_${short.size.toString(36)}`);
    const kept = isScript ? short.get(name) : name;
    parts.push(named(module), named(Buffer.from(kept)), Buffer.from([FUNCTION]), number(reader.number()));
  }
  return [Buffer.concat(parts), short];
}

const program = process.argv[2];
const wasm = await readFile(`${program}_bg.wasm`);
let script = await readFile(`${program}.js`, 'utf8');
const sections = [wasm.subarray(0, 8)];
for (const reader = new Reader(wasm, 8); reader.at < wasm.length;) {
  const id = reader.take(1);
  let section = reader.name();
  if (id[0] === IMPORTS) {
    let short;
    [section, short] = shorten(section);
    for (const [name, shorter] of short) {
      const pieces = script.split(`\n        ${name}: `);
      if (pieces.length !== 2) throw new Error(`${name} stands ${pieces.length - 1} times in the script`);
      script = pieces.join(`\n        ${shorter}: `);
    }
  }
  sections.push(id, named(section));
}
await writeFile(`${program}_bg.wasm`, Buffer.concat(sections));
await writeFile(`${program}.js`, script);
