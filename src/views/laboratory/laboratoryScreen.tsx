import { Spread } from '../parts/spread.tsx';

export default function LaboratoryScreen() {
  return <Spread left={<h1>Laboratory</h1>} right={null} />;
}
