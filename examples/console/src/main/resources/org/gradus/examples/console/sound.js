// Sounds of our own: two rising notes when something begins, three falling ones for a stop.
let audio;
let muted = localStorage.getItem('gradus-muted') === 'yes';

export const isMuted = () => muted;

export function mute(wanted) {
  muted = wanted;
  localStorage.setItem('gradus-muted', wanted ? 'yes' : 'no');
}

// Browsers allow sound once the page was touched.
addEventListener('pointerdown', () => { audio = audio || new AudioContext(); }, { once: true });

function play(notes) {
  if (muted || !audio) return;
  notes.forEach((pitch, place) => {
    const tone = audio.createOscillator();
    const volume = audio.createGain();
    const at = audio.currentTime + place * 0.16;
    tone.frequency.value = pitch;
    volume.gain.setValueAtTime(0.0001, at);
    volume.gain.exponentialRampToValueAtTime(0.3, at + 0.02);
    volume.gain.exponentialRampToValueAtTime(0.0001, at + 0.15);
    tone.connect(volume).connect(audio.destination);
    tone.start(at);
    tone.stop(at + 0.16);
  });
}

export const begins = () => play([523, 698]);
export const decides = () => play([698, 698]);
export const stops = () => play([880, 659, 440]);
