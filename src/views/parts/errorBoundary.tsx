import { Component, type ReactNode } from 'react';

interface Props {
  /** Where the page stands: another address is another page, which is drawn whatever became of the one before. */
  address?: string;
  children: ReactNode;
}

/** A fault in one screen leaves the rest standing, says what happened, and that nothing recorded is lost. */
export class ErrorBoundary extends Component<Props, { error: Error | null }> {
  override state: { error: Error | null } = { error: null };

  static getDerivedStateFromError(error: unknown) {
    return { error: error instanceof Error ? error : new Error(String(error)) };
  }

  override componentDidUpdate({ address }: Props) {
    if (address !== this.props.address && this.state.error !== null) this.setState({ error: null });
  }

  override render() {
    const { error } = this.state;
    if (error === null) return this.props.children;
    return (
      <main className="spread__page stack" role="alert">
        <h1>This page could not be drawn</h1>
        <p>What is recorded is safe: it stands in the journal as it was. Reload the page to go on.</p>
        <p className="quiet">
          If it happens again, hand this to whoever looks after the program: {error.name}: {error.message}
        </p>
        <div className="line">
          <button onClick={() => window.location.reload()} type="button">
            Reload
          </button>
          <button data-weight="line" onClick={() => this.setState({ error: null })} type="button">
            Try to draw it again
          </button>
        </div>
      </main>
    );
  }
}
