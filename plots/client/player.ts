/** The slider over computed values and its play button. One redraw a frame, however fast the slider moves. */

export function player(choose: (index: number, redraw: boolean) => string, name = 'speed'): void {
  const slider = document.getElementById(name);
  const output = document.getElementById(`${name}-out`);
  const button = document.getElementById('play');
  if (!(slider instanceof HTMLInputElement)) return;
  let frame = 0;
  let timer = 0;
  const show = (redraw: boolean): void => {
    const text = choose(Number(slider.value), redraw);
    slider.setAttribute('aria-valuetext', text);
    if (output) output.textContent = text;
  };
  const stop = (): void => {
    clearInterval(timer);
    timer = 0;
    button?.setAttribute('aria-pressed', 'false');
    if (button) button.textContent = 'Play';
  };
  slider.addEventListener('input', () => {
    if (timer) stop();
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(() => show(true));
  });
  button?.addEventListener('click', () => {
    if (timer) return stop();
    button.setAttribute('aria-pressed', 'true');
    button.textContent = 'Stop';
    timer = setInterval(() => {
      const next = Number(slider.value) + 1;
      slider.value = String(next > Number(slider.max) ? 0 : next);
      show(true);
    }, 700);
  });
  show(false);
}
