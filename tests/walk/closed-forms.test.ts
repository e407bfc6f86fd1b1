import { closedForms } from './closed-forms.ts';

closedForms(1, 3000);
