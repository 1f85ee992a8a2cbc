// Debian's Firefox, headless, over WebDriver BiDi (W3C): node --experimental-websocket.

import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";

/** Opens an address; `call` runs a function's text there with one text, and gives the text it returns. */
export async function openFirefox(address) {
  const profile = mkdtempSync(join(tmpdir(), "callfit-firefox-"));
  const words = ["--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0"];
  const firefox = spawn(process.env.FIREFOX ?? "firefox-esr", words, { stdio: ["ignore", "ignore", "pipe"] });
  process.on("exit", () => firefox.kill());
  const place = await new Promise((found, failed) => {
    firefox.on("exit", (code) => failed(new Error("firefox ended with " + code)));
    createInterface(firefox.stderr).on("line", (line) => {
      const match = /BiDi listening on (ws:\S+)/.exec(line);
      if (match) found(match[1]);
    });
  });
  const socket = new WebSocket(place + "/session");
  await new Promise((opened, failed) => {
    socket.onopen = opened;
    socket.onerror = (event) => failed(new Error("no session: " + event.message));
  });
  const waiting = new Map();
  socket.onmessage = ({ data }) => {
    const reply = JSON.parse(data);
    const { done, failed } = waiting.get(reply.id) ?? {};
    if (!done) return;
    if (reply.type === "success") done(reply.result);
    else failed(new Error(data));
  };
  let number = 0;
  const send = (method, params) =>
    new Promise((done, failed) => {
      waiting.set(++number, { done, failed });
      socket.send(JSON.stringify({ id: number, method, params }));
    });
  await send("session.new", { capabilities: {} });
  const { contexts } = await send("browsingContext.getTree", {});
  const { context } = contexts[0];
  await send("browsingContext.navigate", { context, url: address, wait: "complete" });
  const call = async (functionDeclaration, text) => {
    const reply = await send("script.callFunction", {
      functionDeclaration,
      awaitPromise: true,
      target: { context },
      arguments: [{ type: "string", value: text }],
    });
    if (reply.type !== "success") throw new Error(JSON.stringify(reply.exceptionDetails));
    return reply.result.value;
  };
  const close = async () => {
    socket.close();
    firefox.removeAllListeners("exit");
    const ended = new Promise((done) => firefox.on("exit", done));
    firefox.kill();
    await ended;
    rmSync(profile, { recursive: true, force: true });
  };
  return { call, close };
}
