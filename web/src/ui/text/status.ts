/** What can be said of this device's entries; each sentence is true whenever it stands there. */
import type { StatusLine } from "@/services/status";

type Device = "phone" | "computer";

/** Two lines at most: where the entries are, and what is needed. */
export function statusWords(line: StatusLine, device: Device, now: Date): string {
  switch (line.kind) {
    case "reading":
      return "";
    case "storage":
      return line.trouble.fault === "full"
        ? `this ${device} is full`
        : `this ${device}'s storage cannot be read`;
    case "sign_in":
      return line.waiting > 0 ? `sign in as ${line.name} to send ${line.waiting}` : `sign in as ${line.name}`;
    case "too_old":
      return line.waiting > 0 ? `update the app to send ${line.waiting}` : "update the app";
    case "attention":
      return attention(line.count) + (line.waiting > 0 ? ` · ${line.waiting} waiting` : "");
    case "waiting":
      return `saved on this ${device} · ${line.count} waiting`;
    case "synced":
      return `synced ${moment(new Date(line.at), now)}`;
    case "new":
      return `saved on this ${device}`;
  }
}

function attention(count: number): string {
  return count === 1 ? "1 entry needs attention" : `${count} entries need attention`;
}

/** 09:14 on the same day, else 12 Sep. */
function moment(at: Date, now: Date): string {
  const day = { day: "numeric", month: "short" } as const;
  const time = { hour: "2-digit", minute: "2-digit" } as const;
  return at.toLocaleString("en-GB", at.toDateString() === now.toDateString() ? time : day);
}
