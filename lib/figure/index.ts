export type * from './figure';
export { furnaceChartFigure } from './furnace/furnaceChartFigure';
export { reageFigure } from './furnace/reageFigure';
export { type HeatmapOptions, heatmapFigure, type PeakMap } from './map/heatmapFigure';
export { type MapOptions, mapFigure, type StrengthMap } from './map/mapFigure';
export type { MapLine, MapPoint } from './map/mapMarks';
export { peakMapOf } from './map/peakMapOf';
export { planFigure } from './map/planFigure';
export { spikeFigure } from './map/spikeFigure';
export { planTimeFigure } from './profile/planTimeFigure';
export {
  type ProfileLine,
  type ProfileOptions,
  type ProfilePoint,
  profileFigure,
} from './profile/profileFigure';
export { type ResidualOptions, residualFigure } from './profile/residualFigure';
export { hardnessFigure, type SoftZoneMarks, softZoneFigure } from './profile/softZoneFigure';
export { type TrendLine, type TrendOptions, type TrendPoint, trendFigure } from './profile/trendFigure';
export { type FactorMarks, factorFigure } from './section/factorFigure';
export { type SectionPicture, sectionFigure } from './section/sectionFigure';
export { figureInUsUnits } from './show/figureInUsUnits';
export { figureName } from './show/figureName';
export { FIGURE_STYLE, liveFigure, liveScripts } from './show/liveFigure';
export type { PlotlyBundle } from './show/packPlotly';
export { plotlyBundle } from './show/plotlyBundle';
export { displayWriter, show } from './show/show';
export { type Shown, shownIn } from './show/shownIn';
export { showTable, tableText } from './show/showTable';
export { type StaticSvgOptions, staticSvg } from './show/staticSvg';
export { sayingsFigure } from './strength/sayingsFigure';
export { strengthFigure } from './strength/strengthFigure';
export type { StrengthLine } from './strength/strengthPanel';
export { fitFigure } from './trace/fitFigure';
export type { FigureLimit } from './trace/limitLines';
export { type ScenarioLine, scenarioFigure } from './trace/scenarioFigure';
export type { TracedChannel } from './trace/tracedChannel';
export { traceFigure } from './trace/traceFigure';
export type { TraceOptions } from './trace/tracePanel';
export { bestWitness, verdictFigure } from './trace/verdictFigure';
