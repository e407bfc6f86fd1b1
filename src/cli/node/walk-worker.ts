import { answerWalks } from '../../walk/jobs.ts';
import { serveJobs } from './serve-jobs.ts';

serveJobs(answerWalks);
