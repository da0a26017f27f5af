/** Hands a person a file of what was not sent, in the form in which it would have travelled. */
export function saveFile(content: unknown): void {
  const file = new Blob([JSON.stringify(content, null, 2)], { type: "application/json" });
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = "tareway-unsent.json";
  link.click();
  URL.revokeObjectURL(url);
}
