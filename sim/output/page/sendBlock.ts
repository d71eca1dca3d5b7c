import type { HourlyTrial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import { SEND_SIZE, sendPicture } from '../figures/sendPicture.ts';

/**
 * What saves the picture to send: the picture itself waits unseen, and takes its marks from the night chart of the page.
 *
 * in: id, the trial's own; trial; setting
 * out: markup; '' where there is no night to be drawn
 */
export function sendBlock(id: string, trial: HourlyTrial, setting: BlockSetting): string {
  const picture = sendPicture(id, trial, setting);
  if (picture === undefined) return '';
  const { width, height } = SEND_SIZE;
  return (
    `<div class="send"><p>For whoever builds no lamps: these nights in one picture, with what they come to in two sentences.</p><div class="tools">` +
    `<button type="button" data-send="png">Save picture to send (PNG, ${width} x ${height})</button>` +
    `<button type="button" data-send="svg">Save picture to send (SVG)</button></div>` +
    `<template data-of="${id}">${picture.svg}</template></div>`
  );
}
