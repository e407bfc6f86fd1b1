import charts from '../charts/charts.css?inline';
import map from '../map/map.css?inline';
import theme from '../theme/theme.css?inline';
import own from './page.css?inline';
import { startPage } from './page.ts';
import { serveAs } from './worker/serve.ts';

// The same script is the page and its workers: one file carries the engine once.
if (typeof document === 'undefined') {
  serveAs(self.name);
} else {
  const script = document.currentScript?.textContent ?? '';
  const style = document.createElement('style');
  style.textContent = [theme, charts, map, own].join('\n');
  document.head.append(style);
  startPage(script);
}
