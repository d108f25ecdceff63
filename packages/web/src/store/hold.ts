export interface Hold {
  /** Lets go of what was held and asks for a project; false when another tab has it. */
  take(id: string): Promise<boolean>;
  /** Takes it from the tab that has it, which is told. */
  seize(id: string): Promise<void>;
}

/**
 * One tab at a time writes a project, by the browser's own locks. Where there are none (a page that is not served
 * securely) every tab may; the store then refuses what would overwrite another tab's newer state.
 *
 * @param lost  called when another tab took the project over
 * @param freed called when the tab that had it is gone and this one holds it now; false lets go of it again
 */
export function createHold(
  locks: LockManager | undefined,
  lost: () => void,
  freed: (id: string) => boolean,
): Hold {
  let letGo: () => void = () => {};
  let queue: AbortController | null = null;
  let turn = 0;
  let holds: string | null = null;

  const ask = (id: string, options: LockOptions, mine: number): Promise<boolean> => {
    if (locks === undefined) return Promise.resolve(true);
    let granted = false;
    return new Promise((answer) => {
      locks
        .request(`sunlap-project:${id}`, options, (lock) => {
          granted = lock !== null;
          answer(granted);
          if (lock === null || mine !== turn) return undefined;
          return new Promise<void>((resolve) => {
            letGo = resolve;
          });
        })
        .catch(() => {
          // a request that was granted is only broken off by a tab that takes the lock over
          answer(false);
          if (!granted || mine !== turn) return;
          holds = null;
          lost();
        });
    });
  };

  function begin(): number {
    holds = null;
    letGo();
    letGo = () => {};
    queue?.abort();
    queue = null;
    return ++turn;
  }

  return {
    async take(id) {
      if (holds === id) return true;
      const mine = begin();
      const got = await ask(id, { ifAvailable: true }, mine);
      if (mine !== turn) return false;
      if (got) {
        holds = id;
        return true;
      }
      queue = new AbortController();
      void ask(id, { signal: queue.signal }, mine).then((got) => {
        if (!got || mine !== turn) return;
        if (freed(id)) holds = id;
        else letGo();
      });
      return false;
    },
    async seize(id) {
      const mine = begin();
      if ((await ask(id, { steal: true }, mine)) && mine === turn) holds = id;
    },
  };
}
