import type { FirstAnswers } from '@sunlap/project/start/start-project';
import type { Door } from '../state';

export interface QuestionProps {
  door: Door;
  answers: FirstAnswers;
  /** One answer, as one step with its name. */
  put: (name: string, change: Partial<FirstAnswers>) => void;
}
