/** The sheet with the chart's text, to take along. */
import { printChartText } from "@halflap/board/chart-text";
import type { JSX } from "solid-js";
import type { Session } from "../session/session.ts";
import { appWords } from "../words/app.ts";
import { CopyField } from "./CopyField.tsx";
import { Dialog } from "./Dialog.tsx";

/** As the board stands while it is open. */
export function ChartTextDialog(props: {
  readonly session: Session;
  readonly onClose: () => void;
}): JSX.Element {
  return (
    <Dialog title={appWords.chartText} onClose={props.onClose}>
      <CopyField
        label={appWords.chartTextHint}
        text={printChartText(props.session.board)}
        rows={16}
      />
    </Dialog>
  );
}
