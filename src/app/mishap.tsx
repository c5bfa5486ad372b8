import { Component, type ReactNode } from 'react';
import { tr } from '../words/tr.ts';
import { newJob, saveJobFile } from './files.ts';
import { goBack } from './store.ts';

interface Props {
  /** What is shown here, as a person calls it. */
  readonly part: string;
  readonly children: ReactNode;
}

/**
 * Holds a fault of ours to one part of the page: what is entered is kept, can be saved to a file, and a step back or
 * another try may show the part again.
 */
export class Mishap extends Component<Props, { readonly error: Error | null }> {
  override state: { readonly error: Error | null } = { error: null };

  static getDerivedStateFromError(error: unknown) {
    return { error: error instanceof Error ? error : new Error(String(error)) };
  }

  private readonly again = (): void => this.setState({ error: null });

  private readonly back = (): void => {
    goBack();
    this.again();
  };

  private readonly afresh = (): void => {
    void newJob().then(() => this.again());
  };

  override render() {
    const { error } = this.state;
    if (!error) return this.props.children;
    return (
      <div className="mishap" role="alert">
        <h2>{tr`${this.props.part} cannot be shown`}</h2>
        <p>{tr`This is a fault of slabwright (${error.message}). Your job is kept as it was entered: save it to a file to be sure, then take the last step back or try again.`}</p>
        <div className="buttons">
          <button
            type="button"
            className="main"
            onClick={() => void saveJobFile()}
          >{tr`Save to a file`}</button>
          <button type="button" onClick={this.back}>{tr`Undo the last step`}</button>
          <button type="button" onClick={this.again}>{tr`Try again`}</button>
          <button type="button" onClick={this.afresh}>{tr`New job`}</button>
        </div>
      </div>
    );
  }
}
