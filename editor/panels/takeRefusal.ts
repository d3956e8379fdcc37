import type { Desk } from "../state/desk.ts";

/** Why the desk refused, to be said under the field and there alone: told twice, it would be read aloud twice. */
export function takeRefusal(desk: Desk): string {
  const { message } = desk.get();
  desk.say(null);
  return message?.text ?? "This can not be kept in a drawing.";
}
