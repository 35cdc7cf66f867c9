/** An installed Chromium, Chrome or Edge; as root on a machine with apt it is installed when there is none. Never answers nothing. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const COMMANDS = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
  'microsoft-edge',
  'microsoft-edge-stable',
];
const PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ...['ProgramFiles', 'ProgramFiles(x86)', 'LOCALAPPDATA'].flatMap((variable) => {
    const folder = process.env[variable];
    return folder === undefined
      ? []
      : ['Google\\Chrome\\Application\\chrome.exe', 'Chromium\\Application\\chrome.exe', 'Microsoft\\Edge\\Application\\msedge.exe'].map(
          (end) => `${folder}\\${end}`,
        );
  }),
];

function look(commands: readonly string[], places: readonly string[]): string | undefined {
  const folders = (process.env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  return [...folders.flatMap((folder) => commands.map((command) => join(folder, command))), ...places].find((path) => existsSync(path));
}

/** Debian's package, where this may be installed; quietly nothing where it may not. */
function install(name: string): void {
  if (process.platform !== 'linux' || process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return;
  const apt = (...words: string[]): void => {
    execFileSync('apt-get', words, { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } });
  };
  const packages = ['install', '-y', '--no-install-recommends', name];
  try {
    apt(...packages);
  } catch {
    // The list of packages may be too old to find it.
    try {
      apt('update');
      apt(...packages);
    } catch {
      // Said below, in one sentence.
    }
  }
}

export function installedBrowser(): string {
  let found = look(COMMANDS, PLACES);
  if (found === undefined) {
    install('chromium');
    found = look(COMMANDS, PLACES);
  }
  if (found === undefined)
    throw new Error('These tests look at the report in a browser: install Chromium, Chrome or Edge and put it on the PATH.');
  return found;
}

const FIREFOX = ['firefox', 'firefox-esr'];
const FIREFOX_PLACES = ['/Applications/Firefox.app/Contents/MacOS/firefox'];

/** An installed Firefox, installed where it may be; undefined where there is none to be had, which is no fault: the report is looked at in one browser always. */
export function installedFirefox(): string | undefined {
  if (look(FIREFOX, FIREFOX_PLACES) === undefined) install('firefox-esr');
  return look(FIREFOX, FIREFOX_PLACES);
}
