/** Answer to one request of the browser's store. */
export const answerOf = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

/** Resolves once all of a transaction is kept; rejects when none of it is. */
export const kept = (transaction: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    const failed = () => reject(transaction.error ?? new DOMException('aborted', 'AbortError'));
    transaction.oncomplete = () => resolve();
    transaction.onerror = failed;
    transaction.onabort = failed;
  });

/** Opens a store of this browser; `make` lays it out when it is new. */
export function openStore(name: string, make: (fresh: IDBDatabase) => void): Promise<IDBDatabase> {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => make(request.result);
  return answerOf(request);
}
