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
 * @param lost called when another tab took the project over
 */
export function createHold(locks: LockManager | undefined, lost: () => void): Hold {
  let letGo: () => void = () => {};
  let turn = 0;
  const ask = (id: string, options: LockOptions): Promise<boolean> => {
    letGo();
    const mine = ++turn;
    if (locks === undefined) return Promise.resolve(true);
    return new Promise((answer) => {
      locks
        .request(`sunlap-project:${id}`, options, (lock) => {
          answer(lock !== null);
          if (lock === null) return undefined;
          return new Promise<void>((resolve) => {
            letGo = resolve;
          });
        })
        .catch(() => {
          answer(false);
          if (mine === turn) lost();
        });
    });
  };
  return {
    take: (id) => ask(id, { ifAvailable: true }),
    seize: async (id) => {
      await ask(id, { steal: true });
    },
  };
}
