// @ts-nocheck: a worker's world is not a page's
// One engine in a worker: a module and a case come in, then questions; answers go out in their order.

let engine;

const opened = async ({ module, pageCase, following }) => {
  engine = await callfitEngine({
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(module, imports).then((instance) => done(instance, module));
      return {};
    },
  });
  return engine.ccall("callfit_open", "string", ["string", "number"], [pageCase, following ? 1 : 0]);
};

const answers = {
  open: opened,
  show: ({ request }) => engine.ccall("callfit_show", "string", ["string"], [request]),
  ask: ({ request }) => engine.ccall("callfit_ask", "string", ["string"], [request]),
};

let last = Promise.resolve();
self.onmessage = ({ data }) => {
  last = last.then(async () => {
    try {
      self.postMessage({ number: data.number, text: await answers[data.kind](data) });
    } catch (error) {
      self.postMessage({ number: data.number, fault: String(error) });
    }
  });
};
