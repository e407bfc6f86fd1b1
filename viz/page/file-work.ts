import type { Report } from '../../src/report/report.ts';
import { demoWork } from './demo.ts';
import type { Desk } from './desk.ts';
import { joinedFolder } from './folder.ts';
import { problemText } from './german-faults.ts';
import type { PlacedPicture } from './messages.ts';
import { wishedReading } from './reader-wishes.ts';
import { type ReportSize, saveReport } from './saving.ts';
import { isSealed } from './sealed.ts';
import { readAll, type Taken, taking } from './taking.ts';
import { filled } from './words.ts';

/** Files that come and go: what is dropped, a picture beneath, the report. */
export class FileWork {
  private readonly desk: Desk;
  /** The report that has been asked for. */
  reporting: { readonly size: ReportSize; readonly state: number } | null = null;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  async openFiles(list: readonly File[]): Promise<void> {
    const t = this.desk.words.texts;
    this.desk.frame.say('problem', '');
    try {
      const files = await readAll(list, t.tooLarge);
      const name = list[0]?.name ?? '';
      const taken = await taking(files, name, {
        unknown: filled(t.unknownFile, { name }),
        work: this.desk.history.now,
        joined: this.joined(),
        takenIds: this.desk.placing.takenIds(),
      });
      await this.take(taken, name);
    } catch (error) {
      this.desk.frame.say('problem', `${problemText(error)} ${t.stays}`);
    }
  }

  /** Nothing is taken over before all of it has been read. */
  async take(taken: Taken, name: string): Promise<void> {
    const t = this.desk.words.texts;
    if ('placed' in taken) {
      this.takePicture(taken.placed);
      this.desk.frame.say('state', filled(t.pictureLies, { name }));
    } else if ('line' in taken) {
      if (this.desk.places === null) return;
      const { readLine } = await import('../../src/route/read-line.ts');
      this.desk.crew.interpret(taken.called, readLine(taken.line, name, this.desk.places.crs));
    } else {
      if (taken.work.task !== undefined) this.desk.routes.leaveRoute();
      if (taken.work.folder !== undefined) this.takePicture(null);
      this.desk.change(taken.work);
      const { added } = taken;
      this.desk.frame.say(
        'state',
        added === null ? filled(t.openedFile, { name }) : filled(t.addedFeatures, { n: added, name }),
      );
    }
  }

  takePicture(placed: PlacedPicture | null): void {
    this.desk.store.keepPicture(placed);
    this.showPicture(placed);
  }

  showPicture(placed: PlacedPicture | null): void {
    const beneath = placed && { url: URL.createObjectURL(placed.picture), bounds: placed.bounds };
    this.desk.board.map.setPicture(beneath);
    this.desk.frame.pictured(placed !== null);
  }

  joined() {
    const { folder, own } = this.desk.history.now;
    return this.desk.places === null ? folder : joinedFolder(folder, own, this.desk.places.crs);
  }

  /** A report tells more than the page shows, and is worked out for it. */
  askForReport(size: ReportSize): void {
    const { results, words } = this.desk;
    if (results === null) return;
    if (isSealed(this.desk.history.now)) {
      this.desk.frame.say('problem', words.texts.sealedPart);
      return;
    }
    this.reporting = { size, state: this.desk.state };
    this.desk.share = 0;
    this.desk.crew.report(this.desk.state, { ...this.desk.task, terrain: '.' }, wishedReading());
    this.desk.view.showState();
  }

  takeReport(state: number, report: Report): void {
    const asked = this.reporting;
    if (asked === null || asked.state !== state) return;
    this.reporting = null;
    this.desk.share = 0;
    this.desk.view.showState();
    const name = saveReport(report, this.desk.task, asked.size);
    this.desk.frame.say('state', filled(this.desk.words.texts.reportSaved, { name }));
  }

  backToDemo(): void {
    this.desk.routes.leaveRoute();
    this.desk.change(demoWork(document));
  }
}
