import { lightStyle } from '../../figures/lightStyle.ts';
import { make, saveFile } from './page.ts';
import { pictureFile } from './pictureFile.ts';

/** Saves the picture to send of a trial where that is asked for, also of parts of the page that come later. */
export function sendTools(): void {
  document.addEventListener('click', ({ target }) => {
    const button = target instanceof Element ? target.closest<HTMLElement>('[data-send]') : null;
    if (button !== null) void send(button);
  });
}

async function send(button: HTMLElement): Promise<void> {
  const template = button.closest('.send')!.querySelector('template')!;
  // While a part of the page waits, marks and words are not those of one trial.
  if (button.closest('[data-waiting]') !== null) return;
  const tried = button.closest('[data-tried]') === null ? '' : '-tried';
  const name = `${template.dataset.of}-to-send${tried}`;
  const svg = new Blob([pictureText(template)], { type: 'image/svg+xml' });
  if (button.dataset.send === 'svg') saveFile(`${name}.svg`, svg);
  else saveFile(`${name}.png`, await pngOf(svg));
}

/** The picture with the marks of the night chart, in light colours. */
function pictureText(template: HTMLTemplateElement): string {
  const picture = template.content.querySelector('svg')!.cloneNode(true) as SVGElement;
  const nights = document.querySelector(`#${template.dataset.of}-nights svg.picture`)!.cloneNode(true);
  picture.querySelector('defs')!.append(...nights.childNodes);
  return pictureFile(picture, lightStyle);
}

/** An SVG file as the browser draws it. */
async function pngOf(svg: Blob): Promise<Blob> {
  const url = URL.createObjectURL(svg);
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = make('canvas');
    canvas.width = image.naturalWidth;
    canvas.height = image.naturalHeight;
    canvas.getContext('2d')!.drawImage(image, 0, 0);
    return await new Promise((done, fail) => {
      canvas.toBlob((png) => (png === null ? fail(new Error('no picture came')) : done(png)), 'image/png');
    });
  } finally {
    URL.revokeObjectURL(url);
  }
}
