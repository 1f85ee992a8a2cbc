// Debian's WebKit (webkit2gtk-driver with its MiniBrowser), over WebDriver (W3C) on a screen of Xvfb.

import { spawn } from "node:child_process";
import { createServer } from "node:net";
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";

const libraries = "/usr/lib";

/** MiniBrowser lies beside its library, in a folder named by machine and version. */
function miniBrowser() {
  for (const machine of readdirSync(libraries).filter((name) => name.includes("-linux-gnu")))
    for (const version of ["webkit2gtk-4.1", "webkit2gtk-4.0"]) {
      const file = join(libraries, machine, version, "MiniBrowser");
      if (existsSync(file)) return file;
    }
  throw new Error("no MiniBrowser: apt install webkit2gtk-driver xvfb");
}

function freePort() {
  return new Promise((found) => {
    const server = createServer().listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => found(port));
    });
  });
}

/** Ends a program with all that it started. */
const endGroup = (program) => {
  try {
    process.kill(-program.pid);
  } catch {
    // it has ended by itself
  }
};

/** Opens an address; `call` runs a function's text there with one text, and gives the text it returns. */
export async function openWebKit(address) {
  const port = await freePort();
  const words = ["-a", process.env.WEBKIT_DRIVER ?? "WebKitWebDriver", `--port=${port}`];
  const driver = spawn("xvfb-run", words, { stdio: ["ignore", "ignore", "pipe"], detached: true });
  let said = "";
  driver.stderr.on("data", (text) => (said += text));
  driver.on("error", (error) => (said += error.message));
  process.on("exit", () => endGroup(driver));

  const send = async (method, path, body) => {
    const reply = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      headers: { "Content-Type": "application/json" },
      ...(body ? { body: JSON.stringify(body) } : {}),
    });
    const { value } = await reply.json();
    if (!reply.ok) throw new Error(`${path}: ${value.error}: ${value.message}`);
    return value;
  };
  const listens = async () => {
    for (let tries = 0; tries < 100; ++tries) {
      try {
        return await send("GET", "/status");
      } catch {
        await new Promise((done) => setTimeout(done, 100));
      }
    }
    throw new Error("the driver of WebKit does not listen: " + said);
  };
  await listens();
  const browser = { binary: miniBrowser(), args: ["--automation"] };
  const opened = await send("POST", "/session", {
    capabilities: { alwaysMatch: { "webkitgtk:browserOptions": browser } },
  });
  const session = "/session/" + opened.sessionId;
  await send("POST", session + "/timeouts", { pageLoad: 120_000 });
  await send("POST", session + "/url", { url: address });
  const run = (script, ...args) => send("POST", session + "/execute/sync", { script, args });
  // Asked again and again: a single request that waits longer than five minutes is given up by fetch.
  const call = async (functionText, text) => {
    await run(
      `window.callfitSaid = null;
      (${functionText})(arguments[0]).then(
        (text) => (window.callfitSaid = { text }), (error) => (window.callfitSaid = { fault: String(error) }));`,
      text,
    );
    for (;;) {
      const said = await run("return window.callfitSaid;");
      if (said?.fault) throw new Error(said.fault);
      if (said) return said.text;
      await new Promise((done) => setTimeout(done, 500));
    }
  };
  const close = async () => {
    await send("DELETE", session);
    const ended = new Promise((done) => driver.on("exit", done));
    endGroup(driver);
    await ended;
  };
  return { version: `${opened.capabilities.browserName} ${opened.capabilities.browserVersion}`, call, close };
}
