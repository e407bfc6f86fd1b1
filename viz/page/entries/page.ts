import charts from '../../charts/charts.css?inline';
import map from '../../map/map.css?inline';
import theme from '../../theme/theme.css?inline';
import own from '../page.css?inline';
import { startPage } from '../page.ts';

const style = document.createElement('style');
style.textContent = [theme, charts, map, own].join('\n');
document.head.append(style);
startPage();
