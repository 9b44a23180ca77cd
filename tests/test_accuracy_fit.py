"""The fit of the confidence models, checked against scikit-learn's logistic regression."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from sklearn.linear_model import LogisticRegression  # type: ignore[import-untyped]

from fixtures.fit_confidence import Rows, fit, out_of_fold, pack, rows_from_dumps, together, unpack
from intake.fields.confidence import transformed


def sample(seed: int, count: int = 600) -> Rows:
    """Values that are right the more often, the surer their letters and the fewer their
    rivals; ``spread`` is 1 on average, as standardised evidence is."""
    chance = np.random.default_rng(seed)
    evidence = chance.random((count, 2))
    evidence /= evidence.std(axis=0)
    total = 0.5 + 1.2 * evidence[:, 0] - 0.8 * evidence[:, 1]
    right = chance.random(count) < 1 / (1 + np.exp(-total))
    return Rows(("agreed", "rival"), evidence, right)


@pytest.mark.parametrize("seed", range(3))
def test_weights_are_those_of_scikit_learn(seed: int) -> None:
    rows = sample(seed)
    wrong, right = (~rows.right).sum(), rows.right.sum()
    share = np.where(rows.right, (right + 1) / (right + 2), 1 / (wrong + 2))
    # A target between 0 and 1 is a row twice: right with that weight, wrong with the rest.
    twice = np.vstack([rows.evidence, rows.evidence])
    labels = np.repeat([1, 0], len(share))
    theirs = LogisticRegression(C=1.0, tol=1e-8, max_iter=1000).fit(
        twice, labels, sample_weight=np.concatenate([share, 1 - share])
    )
    ours = fit(rows, penalty=1.0)
    assert ours.intercept == pytest.approx(theirs.intercept_[0], abs=2e-3)
    assert ours.weights.tolist() == pytest.approx(theirs.coef_[0].tolist(), abs=2e-3)


def test_no_evidence_gets_a_sign_against_its_meaning() -> None:
    rows = sample(1)
    turned = Rows(("rival", "agreed"), rows.evidence, rows.right)
    assert fit(turned).weights.tolist() == pytest.approx([0.0, 0.0])


def test_a_field_without_errors_is_never_quite_certain() -> None:
    rows = Rows(("agreed",), np.linspace(0, 1, 50)[:, None], np.ones(50, bool))
    highest = fit(rows).confidences(Rows(("agreed",), np.array([[1.0]]), np.ones(1, bool)))[0]
    assert 0.95 < highest < 0.999


def test_evidence_that_never_varies_gets_no_weight() -> None:
    rows = sample(2)
    constant = Rows(
        (*rows.features, "shape"),
        np.hstack([rows.evidence, np.ones((len(rows.right), 1))]),
        rows.right,
    )
    assert fit(constant).weights[2] == 0.0
    assert "shape" not in fit(constant).as_json()


def test_out_of_fold_confidences_are_honest_where_evidence_says_nothing() -> None:
    chance = np.random.default_rng(4)
    rows = Rows(("agreed",), chance.random((400, 1)), chance.random(400) < 0.7)
    assert out_of_fold(rows).mean() == pytest.approx(rows.right.mean(), abs=0.02)


def test_a_dump_becomes_rows_and_survives_packing(tmp_path: Path) -> None:
    def row(field: str, value: str, right: bool, **evidence: float) -> str:
        return json.dumps({"field": field, "value": value, "right": right, "evidence": evidence})

    dump = tmp_path / "dump.jsonl"
    dump.write_text(
        "\n".join(
            [
                row("lot", "0072", True, weakest=0.99, caption=1.0),
                row("lot", "0012", False, weakest=0.5),
                row("lot", "", False),
                row("barcode", "123", True, weakest=0.5),
            ]
        )
    )
    pack(rows_from_dumps([dump]), tmp_path / "rows.json.gz")
    fields = unpack(tmp_path / "rows.json.gz")
    assert list(fields) == ["lot"]
    assert fields["lot"].features == ("caption", "weakest")
    assert fields["lot"].right.tolist() == [True, False]
    expected = [[1.0, transformed("weakest", 0.99)], [0.0, transformed("weakest", 0.5)]]
    assert fields["lot"].evidence.tolist() == [pytest.approx(row, abs=1e-3) for row in expected]


def test_rows_are_put_together_though_their_evidence_differs() -> None:
    one = Rows(("agreed", "caption"), np.array([[1.0, 0.5]]), np.array([True]))
    other = Rows(("agreed", "colour"), np.array([[0.7, 1.0]]), np.array([False]))
    both = together({"shade": one}, {"shade": other, "lot": other})
    assert both["lot"] is other
    assert both["shade"].features == ("agreed", "caption", "colour")
    assert both["shade"].evidence.tolist() == [[1.0, 0.5, 0.0], [0.7, 0.0, 1.0]]
    assert both["shade"].right.tolist() == [True, False]
