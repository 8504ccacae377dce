// The native command, as `make native` builds it.
import { execFileSync, spawnSync } from 'node:child_process';

const program = `${process.env.CARGO_TARGET_DIR ?? 'target'}/serve/longsmoke`;
const options = { encoding: 'utf8', maxBuffer: 2 ** 28 };

/** What a command that succeeds prints. */
export const native = (args, input) => execFileSync(program, args, { ...options, input });

/** How a command ends, and what it prints. */
export const attempt = (args, input) => spawnSync(program, args, { ...options, input });

/** The example, or a design given as a file, checked: its result. */
export const checked = (file = native(['example'])) => JSON.parse(native(['check', '-', '--json'], file));
