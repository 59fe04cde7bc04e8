import assert from 'node:assert/strict';
import { knobsOf, potsFrom } from '../../server/src/lsp/heard.ts';
import { analysedText } from '../support/sample-files.ts';

const instrument = analysedText(`instrument fern {
  pickup neck fern-neck
  pickup bridge fern-bridge
  controls {
    volume 500 kohm audio for neck
    volume 500 kohm audio for bridge
    tone 500 kohm audio with 22 nF
    tone 250 kohm audio with 4n7
    blend neck bridge 250 kohm two-gang
    bleed 680 pF
  }
}
`).instruments[0]?.instrument;

describe('pots of the bench view', () => {
  it('are one knob for each control that turns; those of a kind that serve all go together', () => {
    assert.ok(instrument);
    assert.deepEqual(
      knobsOf(instrument).map(({ id, label, rest }) => `${id}: ${label}, ${rest}`),
      [
        'neck.volume: neck volume, 10',
        'bridge.volume: bridge volume, 10',
        'tone: tone, 10',
        'blend: blend, neck to bridge, 5',
      ],
    );
  });

  it('are taken by the names of the knobs, between 0 and 10, and nothing else of what comes', () => {
    assert.deepEqual(potsFrom(undefined), { volume: 10, tone: 10 });
    assert.deepEqual(potsFrom({ volume: 12, tone: 3.04, hue: 4 }), { volume: 10, tone: 3 });
    assert.deepEqual(potsFrom({ 'neck.volume': -1, tone: 5, blend: 8 }), {
      volume: 10,
      tone: 5,
      blend: 8,
      apart: { neck: { volume: 0, tone: 5 } },
    });
    assert.deepEqual(potsFrom(JSON.parse('{"volume":"7","tone":null}')), { volume: 10, tone: 10 });
  });
});
