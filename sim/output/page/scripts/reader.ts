// The script of a page whose figures are all there.
import { awakener } from './awakener.ts';
import { figureTools } from './figureTools.ts';
import { startPage } from './startPage.ts';

startPage(awakener(figureTools));
