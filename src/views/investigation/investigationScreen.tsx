import { Spread } from '../parts/spread.tsx';

export default function InvestigationScreen() {
  return <Spread left={<h1>Investigation</h1>} right={null} />;
}
