/** Why an answer is what it is, in words. */
export interface WhyText {
  equation: string;
  source: string;
  inputs: [label: string, value: string][];
  /** Parts of codes or paths of the notes that touch it. */
  touches: string[];
}

export const WHY: Record<string, Omit<WhyText, 'inputs'>> = {
  heat: {
    equation:
      'Each tube warms its own water: towards the temperature at which sun gained and heat lost are equal, the less the more water passes. Headers mix by flow, feed and return pipes gain and lose too. Heat is the water’s flow × its heat capacity × its rise.',
    source:
      'Sun: Perez 1990 on the plane, Ineichen & Perez clear sky. Air: Churchill & Bernstein, Churchill & Chu. Sky: Berdahl & Martin 1984. Water: Gnielinski, Shah. Band: rival models of wind, sky and sharing.',
    touches: ['heat', 'collector', 'shade', 'air'],
  },
  rise: {
    equation:
      'Heat over flow and heat capacity. A hotter return is not more heat: less flow warms less water more, and loses more on the way.',
    source: 'Energy balance of the water; IAPWS heat capacity.',
    touches: ['rise', 'flow'],
  },
  flow: {
    equation:
      'Every pipe, tee, tube and valve is one network. Flow settles where the pump’s head equals what the loop loses; tees decide who gets the water.',
    source:
      'Darcy–Weisbach with Churchill 1977; tees after Idelchik as in Crane TP-410 (2009), Gardel 1957 and ideal momentum as band; solver after Todini & Pilati 1988.',
    touches: ['pump', 'valve', 'flow', 'filter'],
  },
  head: {
    equation:
      'Head at the panel’s inlet less head at its outlet: friction in tubes and headers, every tee and hand-over.',
    source: 'As for the flow.',
    touches: ['collector', 'header'],
  },
  least: {
    equation:
      'The tube with the least water of those that can flow, over the mean of its pass. In a header, pressure falls by friction and rises as water is given off; the tubes see the difference.',
    source: 'As for the flow; header number after the closed form of a frictionless manifold.',
    touches: ['uneven', 'header', 'share'],
  },
  most: {
    equation: 'The tube with the most water, over the mean of its pass.',
    source: 'As for the flow.',
    touches: ['uneven', 'header', 'share'],
  },
  header: {
    equation:
      'The header number m compares what the header’s speed does to pressure with what a tube loses: m = (tubes × tube area / header area)² / (friction × length / bore + 1.5); a quarter of it when fed at both ends. Small is even.',
    source:
      'Closed form for many tubes and frictionless headers. Common practice: header drop about 10 % of tube drop, never above 30 % (UFC 3-440-01).',
    touches: ['header'],
  },
  air: {
    equation:
      'Where pipe falls in the direction of flow, a pocket of air leaves only above a clearing speed that grows with √(g × bore) and slope. Three grades: clears, doubtful, holds.',
    source: 'Escarameia 2007 (from memory); Wisner et al. 1975. Both were measured on larger pipe.',
    touches: ['air'],
  },
  drains: {
    equation:
      'A tube drains when its fall exceeds four times sag over span, air can enter above and a way out is open below. Headers must fall too.',
    source:
      'Beam sag with the pipe’s hot, long-term stiffness; 3.2 to 3.6 × for uniform load, 4 × asked for crooked pipe.',
    touches: ['drain', 'sag', 'frost'],
  },
  pumpHead: {
    equation: 'Where the pump’s curve, scaled by its speed, crosses the loop’s.',
    source: 'Affinity laws; monotone cubic through the points given.',
    touches: ['pump'],
  },
  power: {
    equation:
      'From the points on the plate or curve, scaled by speed cubed, plus a fixed load of the drive where one is given.',
    source: 'Affinity laws; the cube law alone understates low speeds.',
    touches: ['pump', 'power'],
  },
  turnover: {
    equation: 'Pool volume over the pump’s flow.',
    source: 'Common practice 8 to 12 h where anyone asks for it.',
    touches: ['turnover'],
  },
  suction: {
    equation: 'Flow over the bore of the narrowest pipe on the suction side.',
    source: 'Limit 6 ft/s, 1.83 m/s: ANSI pool standards, ISPSC.',
    touches: ['suction', 'velocity'],
  },
  pressure: {
    equation: 'Flow over the bore of the narrowest pipe on the pressure side.',
    source: 'Limit 8 ft/s, 2.44 m/s: ANSI pool standards, ISPSC.',
    touches: ['pressure', 'velocity'],
  },
  lowest: {
    equation:
      'Head less height, at every end of every pipe, plus the air’s pressure. Low pressure draws air in and lets water boil in the pump.',
    source:
      'Warned under 50 kPa absolute, refused under 30 kPa or within 10 kPa of boiling: judgement, no source.',
    touches: ['vacuum', 'pressure', 'npsh'],
  },
};
