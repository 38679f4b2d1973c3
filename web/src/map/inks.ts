/// The plan's inks on the map. In the dark the server draws the ground dark, and the plan turns light:
/// in both it stands out most.
export interface Inks {
  night: string;
  ink: string;
  tarn: string;
  stone: string;
  halo: string;
  on_night: string;
  lamp: string;
  lamp_pale: string;
  rowan: string;
  rowan_pale: string;
  haven: string;
  paper: string;
}
export const light_inks: Inks = {
  night: '#0f2036', ink: '#1b2228', tarn: '#0e5a7d', stone: '#454c52', halo: '#ffffff', on_night: '#ffffff', lamp: '#e9a81c', lamp_pale: 'rgba(251,231,176,.72)',
  rowan: '#9a1b1e', rowan_pale: 'rgba(248,225,222,.6)', haven: '#0b6258', paper: '#ffffff',
};
export const dark_inks: Inks = {
  night: '#e6eef7', ink: '#e9edf0', tarn: '#7cc4e8', stone: '#b7c0c8', halo: '#10161b', on_night: '#0f2036', lamp: '#e9a81c', lamp_pale: 'rgba(233,168,28,.34)',
  rowan: '#ffaaa4', rowan_pale: 'rgba(154,27,30,.4)', haven: '#6ccfc0', paper: '#1a2229',
};
