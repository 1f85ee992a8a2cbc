// Starts the real program on a copy of the demo's case, for as long as a test needs it.

import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";

const root = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
export const program = process.env.CALLFIT_PROGRAM ?? join(root, "build/release/bin/callfit");

/**
 * @param {(folder: string) => void} [prepare] what to change in the copy of the demo first
 * @param {{file?: string, words?: (folder: string) => string[]}} [how] a case's file in place of the copy, or
 * other words in an empty folder
 */
export async function openDesk(prepare = () => {}, { file = "", words = undefined } = {}) {
  const folder = mkdtempSync(join(tmpdir(), "callfit-desk-"));
  if (!file && !words) cpSync(join(root, "profiles/demo"), folder, { recursive: true });
  prepare(folder);
  const asked = words ? words(folder) : [file || folder];
  const process = spawn(program, ["desk", ...asked, "--no-open"], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((found, failed) => {
    process.on("exit", (code) => failed(new Error("the desk ended with " + code)));
    createInterface(process.stdout).on("line", (line) => {
      const match = /http:\S+/.exec(line);
      if (match) found(match[0]);
    });
  });
  const end = () =>
    new Promise((ended) => {
      process.removeAllListeners("exit");
      process.on("exit", (code) => {
        remove();
        ended(code);
      });
      process.kill("SIGINT");
    });
  const remove = () => rmSync(folder, { recursive: true, force: true });
  /** As the system does it: without a word. */
  const kill = () => {
    process.removeAllListeners("exit");
    process.kill("SIGKILL");
  };
  const { origin, hash } = new URL(address);
  const ask = async (target, question) => {
    const headers = { "Content-Type": "application/json", "X-Callfit-Token": hash.slice(1) };
    return (await fetch(origin + target, { method: "POST", headers, body: JSON.stringify(question) })).json();
  };
  return { address, folder, process, ask, end, kill, remove };
}
