import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { say } from '../app/state';
import { t } from '../text/catalogue';

export type Later<P> = ComponentType<P> & { fetch(): Promise<void> };

/** What `load` fetches, once it is wanted; null until it is there. */
export function useLater<T>(load: () => Promise<T>, wanted: boolean): T | null {
  const [come, put] = useState<T | null>(null);
  useEffect(() => {
    if (!wanted || come !== null) return;
    let live = true;
    load().then(
      (part) => live && put(part),
      () => live && say(t.notFetched),
    );
    return () => {
      live = false;
    };
  }, [wanted]);
  return come;
}

/** A part of the page that is fetched when it is first wanted; until it is there, nothing stands in its place. */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): Later<P> {
  let Part: ComponentType<P> | null = null;
  const fetch = async () => {
    Part ??= await load();
  };
  function Wanted(props: P) {
    const [, come] = useState(Part !== null);
    useEffect(() => {
      if (Part === null)
        fetch().then(
          () => come(true),
          () => say(t.notFetched),
        );
    }, []);
    return Part === null ? null : <Part {...props} />;
  }
  return Object.assign(Wanted, { fetch });
}
