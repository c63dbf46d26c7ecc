// The line to the server, the size of the letters, and the keys on the screen. Loaded before the
// terminal's own script, which reads the two data attributes and opens the line.
"use strict";
(() => {
  const LETTERS = "'Roboto Mono', Monaco, 'Courier New', monospace"; // what the terminal asks for
  const COLUMNS = 40;
  const LARGEST = 16;
  const SMALLEST = 9;
  const SENT = {
    escape: "\x1b",
    enter: "\r",
    delete: "\x7f",
    up: "\x1b[A",
    down: "\x1b[B",
    right: "\x1b[C",
    left: "\x1b[D",
  };
  const terminal = document.getElementById("terminal");
  const keys = document.getElementById("keys");
  let line = null;

  // The terminal's script keeps its line to itself: note it as it is opened.
  window.WebSocket = class extends window.WebSocket {
    constructor(...given) {
      super(...given);
      line = this;
    }
  };

  function columnsAt(size) {
    const pen = document.createElement("canvas").getContext("2d");
    pen.font = `${size}px ${LETTERS}`;
    const dots = window.devicePixelRatio || 1;
    return Math.floor(terminal.clientWidth / (Math.ceil(pen.measureText("W").width * dots) / dots));
  }

  let size = LARGEST;
  while (size > SMALLEST && columnsAt(size) < COLUMNS) size -= 0.5;
  terminal.dataset.fontSize = size;
  terminal.dataset.sessionWebsocketUrl = `${location.origin.replace(/^http/, "ws")}/ws`;

  // Pressing a key here must not take the focus, nor call up the phone's own keys.
  keys.addEventListener("pointerdown", (event) => event.preventDefault());
  keys.addEventListener("mousedown", (event) => event.preventDefault());
  keys.addEventListener("click", (event) => {
    const key = event.target.dataset.key;
    if (key === "letters") {
      terminal.querySelector("textarea").focus();
    } else if (key && line !== null && line.readyState === WebSocket.OPEN) {
      line.send(JSON.stringify(["stdin", SENT[key] || key]));
    }
  });

  // The phone's own keys cover a part of the page: keep to what is left.
  window.visualViewport?.addEventListener("resize", () => {
    document.body.style.height = `${window.visualViewport.height}px`;
    window.scrollTo(0, 0);
  });
  new ResizeObserver(() => window.dispatchEvent(new Event("resize"))).observe(terminal);
})();
