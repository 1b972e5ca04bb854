// The engine: the lesson's own crates, compiled for the browser. Text goes in and text comes out.
"use strict";

/** The bytes that an element holds as letters: thirteen bits in two of ninety-one, as `letters.rs` writes them. */
function bytesOf({ textContent: letters, dataset }) {
  const digits = new Uint8Array(128);
  let next = 0;
  for (let code = 33; code < 127; code += 1) if (!"&<>".includes(String.fromCharCode(code))) digits[code] = next++;
  const bytes = new Uint8Array(Number(dataset.bytes));
  let held = 0;
  let count = 0;
  let at = 0;
  for (let place = 0; place + 1 < letters.length; place += 2) {
    held |= (digits[letters.charCodeAt(place)] + 91 * digits[letters.charCodeAt(place + 1)]) << count;
    for (count += 13; count >= 8; count -= 8) {
      bytes[at++] = held & 255;
      held >>>= 8;
    }
  }
  return bytes;
}

/** What a packed engine holds: an LZMA file, and before it the gzipped module that unpacks it, with its length. */
async function unpackedEngine(bytes) {
  const end = 4 + new DataView(bytes.buffer).getUint32(0, true);
  const stream = new Blob([bytes.subarray(4, end)]).stream().pipeThrough(new DecompressionStream("gzip"));
  const { instance } = await WebAssembly.instantiate(await new Response(stream).arrayBuffer());
  const unpacker = instance.exports;
  const packed = bytes.subarray(end);
  // Making room moves the memory: its place is asked for first.
  const room = unpacker.room(packed.length);
  new Uint8Array(unpacker.memory.buffer, room, packed.length).set(packed);
  const length = unpacker.unpack();
  return new Uint8Array(unpacker.memory.buffer, unpacker.engine(), length);
}

/** Starts the engine that the page carries. @returns {Promise<(order: object) => any>} gives the engine an order */
async function startEngine() {
  const module = await WebAssembly.compile(await unpackedEngine(bytesOf(document.getElementById("engine"))));
  const writer = new TextEncoder();
  const reader = new TextDecoder();
  let inside = null;
  return (order) => {
    inside ??= new WebAssembly.Instance(module, {}).exports;
    const words = writer.encode(JSON.stringify(order));
    try {
      // Making room may move the memory: its place is asked for first.
      const room = inside.room(words.length);
      new Uint8Array(inside.memory.buffer, room, words.length).set(words);
      const at = inside.order();
      const length = new DataView(inside.memory.buffer).getUint32(at, true);
      return JSON.parse(reader.decode(new Uint8Array(inside.memory.buffer, at + 4, length)));
    } catch (fault) {
      // A fault of ours: the instance is not to be trusted any more, the next order begins with a new one.
      inside = null;
      return { fault: String(fault) };
    }
  };
}
