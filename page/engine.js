// The program itself, in workers of the page: texts in, texts out, and the page never waits.

export class EngineFault extends Error {}

/** What the page holds: the engine's files and the case, put there when the page was made. */
export function unpackedEngine() {
  const worker = URL.createObjectURL(new Blob([JSON.parse(textOf("worker"))], { type: "text/javascript" }));
  const module = unpacked("engine").arrayBuffer().then((code) => WebAssembly.compile(code));
  return { worker, module, pageCase: unpacked("page-case").text() };
}

/** @param {string} id of an element with gzip in base64 */
function unpacked(id) {
  const text = atob(textOf(id));
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < bytes.length; ++i) bytes[i] = text.charCodeAt(i);
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip")));
}

/** @param {string} id */
function textOf(id) {
  return document.getElementById(id)?.textContent ?? "";
}

/** One engine at one pace. `following`: quick answers for a moving hand. */
export class Engine {
  #worker;
  #asked = 0;
  /** @type {Map<number, {done: (answer: any) => void, failed: (error: Error) => void}>} */
  #waiting = new Map();

  /**
   * @param {{worker: string, module: Promise<WebAssembly.Module>, pageCase: Promise<string>}} files
   * @param {boolean} following
   */
  constructor(files, following) {
    this.#worker = new Worker(files.worker);
    this.#worker.addEventListener("message", ({ data }) => this.#take(data));
    this.#worker.addEventListener("error", (event) => this.#fail(event.message));
    // The worker starts while the module is made.
    this.opened = Promise.all([files.module, files.pageCase]).then(([module, pageCase]) =>
      this.#send({ kind: "open", module, pageCase, following }),
    );
  }

  /**
   * What the page shows with handles put somewhere, or with a try's text.
   * @param {{put?: {handle: number, at: number}[], try?: string}} request
   */
  async show(request) {
    await this.opened;
    return this.#send({ kind: "show", request: JSON.stringify(request) });
  }

  /**
   * Any question, as docs/results.md has them.
   * @param {object} request
   */
  async ask(request) {
    await this.opened;
    return this.#send({ kind: "ask", request: JSON.stringify(request) });
  }

  /**
   * @param {object} message
   * @returns {Promise<any>}
   */
  #send(message) {
    const number = ++this.#asked;
    return new Promise((done, failed) => {
      this.#waiting.set(number, { done, failed });
      this.#worker.postMessage({ ...message, number });
    });
  }

  /** @param {{number: number, text?: string, fault?: string}} reply */
  #take({ number, text, fault }) {
    const waiting = this.#waiting.get(number);
    this.#waiting.delete(number);
    if (!waiting) return;
    if (text === undefined) return waiting.failed(new EngineFault(fault));
    const answer = JSON.parse(text);
    if (answer.format !== "callfit-error/1") return waiting.done(answer);
    waiting.failed(
      new EngineFault(
        answer.findings
          .map((/** @type {{path: string, what: string, mend: string}} */ one) =>
            [[one.path, one.what].filter(Boolean).join(" "), one.mend].filter(Boolean).join("; "),
          )
          .join(". "),
      ),
    );
  }

  /** @param {string} message */
  #fail(message) {
    for (const { failed } of this.#waiting.values()) failed(new EngineFault(message));
    this.#waiting.clear();
  }
}
