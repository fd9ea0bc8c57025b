import type { ArchiveCodec } from "../../../xlsx/index.js";

/*
 * Node ends the whole program where one of its threads is ended, or the program left, between the making of an unpacker
 * and its set-up ("close before init", seen with Node 20). So a thread unpacks behind a gate, and who ends it closes the
 * gate first and waits for what is unpacked at that moment.
 */

const OPEN = 0;
const PASSED = 1;
const CLOSED = 2;

/** So long a thread may need for the part that it unpacks; one that died in there never comes out [ms]. */
const MOST_WAIT_MS = 2000;

/** What a thread and who ends it share. */
export type EndingGate = Int32Array<SharedArrayBuffer>;

/** Returns a gate that is open. */
export function endingGate(): EndingGate {
  return new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
}

/** Closes the gate: what is behind it comes out, and nothing goes in any more. */
export function closeGate(gate: EndingGate): void {
  while (Atomics.compareExchange(gate, 0, OPEN, CLOSED) === PASSED) {
    if (Atomics.wait(gate, 0, PASSED, MOST_WAIT_MS) === "timed-out") return;
  }
}

/** Returns the codec of a thread that can be ended at any moment: behind a closed gate it waits for its end. */
export function behindGate(gate: EndingGate, codec: ArchiveCodec): ArchiveCodec {
  const pass = <T>(step: () => T): T => {
    while (Atomics.compareExchange(gate, 0, OPEN, PASSED) !== OPEN) Atomics.wait(gate, 0, CLOSED);
    try {
      return step();
    } finally {
      Atomics.store(gate, 0, OPEN);
      Atomics.notify(gate, 0);
    }
  };
  return {
    ...codec,
    inflate: (packed, limitBytes) => pass(() => codec.inflate(packed, limitBytes)),
    deflate: (content) => pass(() => codec.deflate(content)),
    packer: () => {
      const pack = codec.packer();
      return (piece, isLast) => pass(() => pack(piece, isLast));
    },
  };
}
