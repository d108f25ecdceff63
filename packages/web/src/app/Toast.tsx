import { useEffect } from 'preact/hooks';
import { toast } from './state';

/** One line that says what was just done. */
export function Toast() {
  const now = toast.value;
  useEffect(() => {
    if (now === null) return;
    const timer = setTimeout(() => {
      if (toast.peek()?.n === now.n) toast.value = null;
    }, 3200);
    return () => clearTimeout(timer);
  }, [now?.n]);
  return (
    <div class="toast-place" role="status">
      {now !== null && <p class="toast">{now.text}</p>}
    </div>
  );
}
