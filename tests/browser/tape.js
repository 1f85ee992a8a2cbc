// A film that tells its own time: the clock burnt in for people, and as bars for a program, a bar a bit of the
// seconds. Made by ffmpeg; where that is not installed, tests say so and leave it out.

import { spawnSync } from "node:child_process";

const bits = 13; // of seconds: more than two hours
const bar = { width: 20, height: 40 };
export const size = { width: bits * bar.width, height: 180 };

export const hasFfmpeg = () => spawnSync("ffmpeg", ["-version"]).status === 0;

/**
 * @param {string} file .mp4 or .webm
 * @param {{seconds: number, rate?: number}} how frames a second
 */
export function makeTape(file, { seconds, rate = 10 }) {
  const bars = Array.from(
    { length: bits },
    (_, bit) =>
      `drawbox=x=${bit * bar.width}:y=${size.height - bar.height}:w=${bar.width}:h=${bar.height}:color=white:t=fill` +
      `:enable='mod(floor(t/${2 ** bit}),2)'`,
  );
  const clock = "drawtext=text='%{pts\\:hms}':fontcolor=white:fontsize=34:x=20:y=50";
  const codec = file.endsWith(".webm")
    ? ["-c:v", "libvpx", "-deadline", "realtime", "-cpu-used", "8", "-b:v", "200k"]
    : ["-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p", "-movflags", "+faststart"];
  const made = spawnSync("ffmpeg", [
    ...["-v", "error", "-y", "-f", "lavfi", "-i", `color=c=0x203828:s=${size.width}x${size.height}:r=${rate}:d=${seconds}`],
    ...["-vf", [clock, ...bars].join(","), ...codec, "-g", String(5 * rate), file],
  ]);
  if (made.status !== 0) throw new Error("ffmpeg: " + made.stderr);
}

/** The whole second that the film shows at present, read off its bars. */
export function shownSecond(page) {
  return page.evaluate(
    ({ bits, bar, size }) => {
      const film = /** @type {HTMLVideoElement} */ (document.getElementById("film"));
      const canvas = new OffscreenCanvas(size.width, size.height);
      const context = canvas.getContext("2d", { willReadFrequently: true });
      context.drawImage(film, 0, 0, size.width, size.height);
      let second = 0;
      for (let bit = 0; bit < bits; ++bit) {
        const [light] = context.getImageData((bit + 0.5) * bar.width, size.height - bar.height / 2, 1, 1).data;
        if (light > 128) second += 2 ** bit;
      }
      return second;
    },
    { bits, bar, size },
  );
}

/** The whole second that a film cut from such a tape (1280 by 720) shows at a place, read off its bars. */
export function secondIn(file, at) {
  const shown = { width: 1280, height: 720 };
  const scale = Math.min(shown.width / size.width, shown.height / size.height);
  const left = (shown.width - scale * size.width) / 2;
  const top = (shown.height - scale * size.height) / 2;
  const took = spawnSync(
    "ffmpeg",
    ["-v", "error", "-ss", String(at), "-i", file, "-frames:v", "1", "-f", "rawvideo", "-pix_fmt", "gray", "-"],
    { maxBuffer: 4 * shown.width * shown.height },
  );
  if (took.stdout.length !== shown.width * shown.height) throw new Error(`no frame at ${at}: ${took.stderr}`);
  let second = 0;
  for (let bit = 0; bit < bits; ++bit) {
    const x = Math.round(left + scale * (bit + 0.5) * bar.width);
    const y = Math.round(top + scale * (size.height - bar.height / 2));
    if (took.stdout[y * shown.width + x] > 128) second += 2 ** bit;
  }
  return second;
}

/** Seeks as a hand would on the film's own bar; how long it took until the picture was there, milliseconds. */
export function seek(page, seconds) {
  return page.evaluate(async (to) => {
    const film = /** @type {HTMLVideoElement} */ (document.getElementById("film"));
    const from = performance.now();
    await new Promise((done) => {
      film.addEventListener("seeked", done, { once: true });
      film.currentTime = to;
    });
    return performance.now() - from;
  }, seconds);
}
