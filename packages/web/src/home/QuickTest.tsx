import { useApp } from '../app/context';
import { f } from '../text/first';

/** One pail and two temperatures, and what they say. */
export function QuickTest() {
  const { actions } = useApp();
  return (
    <section class="quick">
      <h2>{f.home.measure}</h2>
      <button type="button" class="act" onClick={() => actions.goTo('testday')}>
        {f.home.measure}
      </button>
    </section>
  );
}
