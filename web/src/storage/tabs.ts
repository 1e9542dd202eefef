const NAME = "footwell.events";

/** Tells the other tabs of this phone that something was stored, and hears it from them. */
export class OtherTabs {
  private readonly channel =
    "BroadcastChannel" in globalThis ? new BroadcastChannel(NAME) : undefined;

  constructor(onChange: () => void) {
    this.channel?.addEventListener("message", onChange);
  }

  tell(): void {
    this.channel?.postMessage("stored");
  }
}
