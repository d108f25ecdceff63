/** Zone letters round the sheet, as on a drawing set. */
export function Frame() {
  const across = ['1', '2', '3', '4', '5', '6', '7', '8'];
  const down = ['A', 'B', 'C', 'D', 'E'];
  return (
    <div class="frame" aria-hidden="true">
      {(['top', 'bottom'] as const).map((edge) => (
        <div key={edge} class={`zones zones-${edge}`}>
          {across.map((n) => (
            <span key={n}>{n}</span>
          ))}
        </div>
      ))}
      {(['left', 'right'] as const).map((edge) => (
        <div key={edge} class={`zones zones-${edge}`}>
          {down.map((n) => (
            <span key={n}>{n}</span>
          ))}
        </div>
      ))}
    </div>
  );
}
