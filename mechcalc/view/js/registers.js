// What windows show, as text: digits are read from the wheels' tracks, since JSON's numbers lose them beyond 2^53.

const digitOf = (value) => ((Math.floor(value + 0.5) % 10) + 10) % 10;

// The digits behind `parts` (units first), highest place first.
export function registerAt(pose, parts) {
  return parts.map((part) => digitOf(pose[part])).reverse().join("");
}

// The wheels of a register, units first: "setting", "wheel" or "counter".
export function partsOf(machine, register) {
  const places = {setting: machine.settingPlaces, wheel: machine.resultPlaces, counter: machine.counterPlaces}[register];
  return Array.from({length: places}, (_, index) => `${register}/${index + 1}`);
}

// The registers in words, for those who do not see the wheels; what is covered is not said.
export function spoken(machine, pose, cover) {
  const said = (register) => {
    const parts = partsOf(machine, register);
    return parts.some((part) => cover.has(part)) ? "behind the shutter" : registerAt(pose, parts).replace(/^0+(?=\d)/, "");
  };
  return `Setting ${said("setting")}, result ${said("wheel")}, counter ${said("counter")}, `
    + `carriage at ${Math.round(pose.carriage * 10) / 10}.`;
}
