// The engine: the lesson's own crates, compiled for the browser. Text goes in and text comes out.
"use strict";

/** Starts the engine that the page carries. @returns {Promise<(order: object) => any>} gives the engine an order */
async function startEngine() {
  const coded = document.getElementById("engine").textContent;
  const packed = Uint8Array.from(atob(coded), (sign) => sign.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  const module = await WebAssembly.compile(await new Response(stream).arrayBuffer());
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
