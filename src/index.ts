// Two scans of a sheet, before and after: what changed, ink by ink.
export { compareScans } from "./compare/compareScans.ts";
export type { Comparison } from "./compare/compareScans.ts";
export type { CompareRequest, SideRequest } from "./compare/compareRequest.ts";
export type { ComparisonPictures } from "./compare/comparisonPictures.ts";
export { type ScanSurvey, surveyScan, type SurveyedInk } from "./compare/surveyScan.ts";
export type { SurveyRequest } from "./compare/surveyScan.ts";
export { readInkCorrections } from "./regions/readInkCorrections.ts";
export type { InkCorrection, InkCorrections } from "./regions/inkCorrections.ts";
export type { Detail } from "./regions/findRegions.ts";
export type { Ink, InkKind, Paper, Region, RegionMap } from "./regions/regionMap.ts";
export type { Progress } from "./progress.ts";

// The colour card in the frame.
export { checkCard, type CardCheckOptions } from "./calibrate/checkCard.ts";
export type { Correction } from "./calibrate/correction.ts";
export { CARDS, DEFAULT_CARD_NAME } from "./card/cards.ts";
export { loadCard, type LoadCardOptions } from "./card/loadCard.ts";
export { parseCorners, type Corners } from "./card/parseCorners.ts";
export type { Card, CardPatch } from "./card/card.ts";

// Jar photos of spent bath: colour and turbidity, and what they mean.
export { measureJarFiles } from "./jar/measureJarFiles.ts";
export type { JarFiles, JarFilesRead } from "./jar/measureJarFiles.ts";
export type { JarReading } from "./jar/jarReading.ts";
export type { Tone } from "./jar/optics/tone.ts";
export { readStation } from "./jar/place/readStation.ts";
export type { JarShape, Station, StripeZone } from "./jar/place/station.ts";
export { readStrip } from "./jar/readStrip.ts";
export { readEvidenceFile } from "./bath/readEvidenceFile.ts";
export type { Evidence, EvidenceBath, EvidenceInk } from "./bath/evidence.ts";
export type { Blot } from "./bath/palette.ts";
export type { BathReading } from "./bath/reading.ts";

// Stop or continue: advice from baths, blotter tests and limits.
export { assessBaths } from "./advice/assessBaths.ts";
export type { AssessedBath, AssessedPhoto, AssessInput, Assessment } from "./advice/assessBaths.ts";
export { decide } from "./advice/decide.ts";
export { jarResult } from "./advice/jarResult.ts";
export type {
  BathState,
  BleedReport,
  BlotTest,
  FadeForecast,
  InkState,
  Liquid,
  TreatmentState,
} from "./advice/treatmentState.ts";

// Blotter tests.
export { gradeBlotterSpot } from "./blotter/gradeBlotterSpot.ts";
export type { BlotterGrade, BlotterVerdict } from "./blotter/gradeBlotterSpot.ts";
export { measureBlotterFile } from "./blotter/measureBlotterFile.ts";
export type { BlotterBoxes, BlotterReading, BlotterSpot } from "./blotter/measureBlotter.ts";
export type { GreyScaleGrade } from "./colour/greyScaleChange.ts";

// The treatment record.
export { appendEvent, type NewEvent } from "./record/appendEvent.ts";
export { assessTreatment } from "./record/assessTreatment.ts";
export type { AssessedBathEvent, TreatmentAssessment } from "./record/assessTreatment.ts";
export { checkPrediction } from "./record/checkPrediction.ts";
export { compareSides, type KeptComparison } from "./record/compareSides.ts";
export type { DerivedStore } from "./record/derivedStore.ts";
export type { EventInput, EventKind, EventOf, RecordEvent, Settings } from "./record/event.ts";
export { gradeBlot, type KeptBlot } from "./record/gradeBlot.ts";
export { describeInput } from "./record/inputs.ts";
export { openRecord, type OpenRecord } from "./record/openRecord.ts";
export { readBath, type KeptReading } from "./record/readBath.ts";
export type { DamagedEvent } from "./record/readEvents.ts";
export { surveyOf, type KeptSurvey } from "./record/surveyOf.ts";
export type {
  AfterEvent,
  BathEvent,
  BlotEvent,
  ScanEvent,
  Side,
  StepEvent,
  Treatment,
} from "./record/treatment.ts";
export { viewTreatment } from "./record/treatmentView.ts";
export type {
  BathView,
  BenchView,
  BlotView,
  ComparisonPngs,
  ComparisonView,
  JarFigures,
  TreatmentView,
} from "./record/treatmentView.ts";

// Recipe of a bath.
export { bathRecipe, type RecipeOptions } from "./chemistry/bathRecipe.ts";

// Pages and tables.
export { compareReport, type ComparePictures } from "./report/compareReport.tsx";
export { inksCsv, treatmentCsv } from "./report/inksCsv.ts";
export { treatmentJson } from "./report/treatmentJson.ts";
export { treatmentReport } from "./report/treatmentReport.ts";

// What is printed: every result with its schema and its words.
export { SHEET_WORDS, VERDICT_WORDS } from "./results/adviceWords.ts";
export { INK_WORDS, inkWords, PAPER_WORDS } from "./results/compareWords.ts";
export { RESULT_SCHEMAS } from "./results/resultSchemas.ts";
export type { PrintedResult, ResultName } from "./results/resultSchemas.ts";
export type {
  Advice,
  AdviceResult,
  FadeResult,
  InkClass,
  Limits,
  Reason,
  SheetNow,
  Verdict,
} from "./results/advice.ts";
export type { CardList, CardSheet, ShownCard } from "./results/card.ts";
export type { CardCheck } from "./results/cardCheck.ts";
export type * from "./results/compareResult.ts";
export type { DemoResult } from "./results/demoResult.ts";
export type { DryRun } from "./results/dryRun.ts";
export type { ErrorResult } from "./results/errorResult.ts";
export type { EventAdded } from "./results/eventAdded.ts";
export type { ExportResult } from "./results/exportResult.ts";
export type { InkShare, JarBath, JarResult, ShareWord, TurbidityTie } from "./results/jarResult.ts";
export type { CheckedInk, FinishedInk, PredictionCheck } from "./results/prediction.ts";
export type { Recipe } from "./results/recipe.ts";
export type { RefusedPhoto } from "./results/refusedPhoto.ts";
export type { ReportWritten } from "./results/reportWritten.ts";
export type { TreatmentResult } from "./results/treatmentResult.ts";

// Shared by all.
export { ciede2000 } from "./colour/ciede2000.ts";
export { LastrinseError } from "./errors.ts";
export type { ErrorCode, Warning, WarningCode } from "./errors.ts";
export type { Box } from "./grid/box.ts";
export type { Planes } from "./grid/planes.ts";
export type { Point } from "./numeric/point.ts";
export type { Triple } from "./numeric/triple.ts";
export { closeVision } from "./vision/pool.ts";
