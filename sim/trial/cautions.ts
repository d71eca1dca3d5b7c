/** The cautions that every output carries. */
export const CAUTIONS: readonly string[] = [
  'A charged supercapacitor gives hundreds of amperes when shorted: discharge it through a resistor before soldering, no rings, eye protection; never above its rated voltage, mind polarity, balance parts in series.',
  'Glass jars in sun grow hot; resin and paint need ventilation; outdoor parts need drainage and sealing.',
  'Decorative light: not for escape routes, stairs or any place where failing light can hurt. Local electrical, lighting and waste rules and licensed practice come first.',
];
