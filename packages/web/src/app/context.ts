import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Runner } from '../compute/runner';
import type { AppActions } from '../store/command';
import type { Store } from '../store/store';

export interface AppContext {
  store: Store;
  runner: Runner;
  actions: AppActions;
}

export const AppContextProvider = createContext<AppContext | null>(null);

export function useApp(): AppContext {
  const context = useContext(AppContextProvider);
  if (context === null) throw new Error('outside the app');
  return context;
}
