// The line to the server, the size of the letters, and the keys on the screen. Loaded before the
// terminal's own script, which reads the two data attributes and opens the line.
"use strict";
(() => {
  const LETTERS = "'Roboto Mono', Monaco, 'Courier New', monospace"; // what the terminal asks for
  const COLUMNS = 40;
  const LARGEST = 16;
  const SMALLEST = 9;
  const TWO_PANES = 120; // so many columns show what the cursor is on beside the list
  const SMALLEST_ON_A_DESK = 13;
  const SENT = {
    escape: "\x1b",
    enter: "\r",
    delete: "\x7f",
    up: "\x1b[A",
    down: "\x1b[B",
    right: "\x1b[C",
    left: "\x1b[D",
    space: " ",
    F9: "\x1b[20~",
  };
  const terminal = document.getElementById("terminal");
  const keys = document.getElementById("keys");
  const letters = keys.querySelector(".letters");
  const done = keys.querySelector(".done");
  let line = null;

  // What the keys of the screen do, as its foot says it: [["enter", "done"], ["j", "jot"], …].
  function show(hints) {
    const row = hints.filter(([key]) => [...key].length === 1 || (key !== "enter" && key in SENT));
    letters.replaceChildren(
      ...row.filter(([key]) => key !== "?" && key !== "escape").map(([key, words]) => {
        const button = document.createElement("button");
        button.type = "button";
        button.dataset.key = key;
        for (const [kind, text] of [["b", key], ["small", words]])
          button.appendChild(document.createElement(kind)).textContent = text;
        return button;
      })
    );
    done.textContent = new Map(hints).get("enter") || "Enter";
  }

  // The terminal's script keeps its line to itself: note it as it is opened.
  window.WebSocket = class extends window.WebSocket {
    constructor(...given) {
      super(...given);
      line = this;
      this.addEventListener("message", (event) => {
        if (typeof event.data !== "string") return;
        const [kind, value] = JSON.parse(event.data);
        if (kind === "keys") show(value);
      });
    }
  };

  function columnsAt(size) {
    const pen = document.createElement("canvas").getContext("2d");
    pen.font = `${size}px ${LETTERS}`;
    const dots = window.devicePixelRatio || 1;
    return Math.floor(terminal.clientWidth / (Math.ceil(pen.measureText("W").width * dots) / dots));
  }

  function sizeFor(columns, smallest) {
    let size = LARGEST;
    while (size > smallest && columnsAt(size) < columns) size -= 0.5;
    return size;
  }

  const desk = sizeFor(TWO_PANES, SMALLEST_ON_A_DESK);
  const size = columnsAt(desk) >= TWO_PANES ? desk : sizeFor(COLUMNS, SMALLEST);
  terminal.dataset.fontSize = size;
  terminal.dataset.sessionWebsocketUrl = `${location.origin.replace(/^http/, "ws")}/ws`;

  // Pressing a key here must not take the focus, nor call up the phone's own keys.
  keys.addEventListener("pointerdown", (event) => event.preventDefault());
  keys.addEventListener("mousedown", (event) => event.preventDefault());
  keys.addEventListener("click", (event) => {
    const key = event.target.closest("button")?.dataset.key;
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
