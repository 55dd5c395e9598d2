"""The engine that evaluates sheets: tables that the phone can evaluate without knowing any trade.

Its twin is static/phone/estimate.js; both read the same cases in tests/twins.
"""
