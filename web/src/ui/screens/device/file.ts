/** Hands a person a file of what was not sent, in the form in which it would have travelled. */
import { saveFile } from "@/ui/parts/file";

export function saveUnsent(content: unknown): void {
  saveFile("tareway-unsent.json", JSON.stringify(content, null, 2), "application/json");
}
