/** The file a person chose. Its field is free again at once: a file chosen next must not be lost with
 * this one, and the same one may be chosen again. */
export function chosen(field: HTMLInputElement | null): File | undefined {
  const file = field?.files?.[0];
  if (field) field.value = "";
  return file;
}
