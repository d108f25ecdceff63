/** Words of the drawer. */
export const drawerText = {
  title: 'The moment',
  intro: 'Heat now is for this day, hour and weather. They belong to the sheet, not to the project.',
  project: 'Project',
  name: 'Name',
  units: 'Units',
  us: 'US customary',
  metric: 'metric',
  sheet: 'Sheet',
  light: 'light',
  dark: 'dark',
  auto: 'as the device',
  now: 'Now',
  date: 'Day',
  hour: 'Hour',
  earlier: 'earlier',
  later: 'later',
} as const;
