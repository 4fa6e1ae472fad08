from small_workshops import load

__all__ = ["load"]
